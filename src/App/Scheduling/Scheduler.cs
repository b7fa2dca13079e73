using System.Collections.Concurrent;

namespace Trimwright.App.Scheduling;

/// <summary>
/// Works out all questions of the process, those of the page, of phones and of commands, as the <see cref="Roster"/> says. Long
/// ones have threads of their own, so that the pool's stay free for whoever waits at the page.
/// </summary>
public sealed class Scheduler(int? cores = null, TimeProvider? time = null)
{
    private readonly TimeProvider clock = time ?? TimeProvider.System;
    private readonly long began = (time ?? TimeProvider.System).GetTimestamp();
    private readonly ConcurrentDictionary<long, Turn> turns = new();
    private Roster roster = new(cores ?? Environment.ProcessorCount);
    private long arrivals;

    /// <summary>What was done last; saved with a report of our own fault.</summary>
    public Operations Operations { get; } = new();

    /// <summary>Who may use the cores now.</summary>
    public Roster Roster => Volatile.Read(ref roster);

    internal TimeSpan Now => clock.GetElapsedTime(began);

    /// <summary>
    /// Has a question worked out beside everything else. Cancelled, it stops within a few steps and its cores are free again; then
    /// the task ends too.
    /// </summary>
    /// <param name="question">What to work out.</param>
    /// <param name="priority">How near to a hand.</param>
    /// <param name="owner">Who asks.</param>
    /// <param name="progress">Told how far it has come, 0 to 1, on the thread that works.</param>
    /// <param name="cancellation">Nobody wants the answer any more.</param>
    public Task<T> Ask<T>(IQuestion<T> question, Priority priority, Owner owner, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        if (cancellation.IsCancellationRequested) return Task.FromCanceled<T>(cancellation);
        var answer = new TaskCompletionSource<T>(TaskCreationOptions.RunContinuationsAsynchronously);
        TimeSpan asked = Now;
        Turn turn = null!;
        turn = new Turn(this, NewClaim(question, priority, owner), progress, cancellation, begin: () => new Thread(() => Work(turn, question, asked, answer, cancellation))
        {
            IsBackground = true,
            Name = "working out",
        }.UnsafeStart());
        Enter(turn);
        // Not begun yet, it needn't wait for its turn to be ended.
        CancellationTokenRegistration given = cancellation.UnsafeRegister(_ =>
        {
            if (!turn.GiveUp()) return;
            Leave(turn);
            answer.TrySetCanceled(cancellation);
        }, null);
        _ = answer.Task.ContinueWith(_ => given.Dispose(), CancellationToken.None, TaskContinuationOptions.ExecuteSynchronously, TaskScheduler.Default);
        return answer.Task;
    }

    /// <summary>Works a question out on the caller's own thread, as soon as it is its turn: what takes milliseconds and is waited for.</summary>
    /// <param name="question">What to work out.</param>
    /// <param name="priority">How near to a hand.</param>
    /// <param name="owner">Who asks.</param>
    /// <param name="cancellation">Nobody wants the answer any more.</param>
    public T Do<T>(IQuestion<T> question, Priority priority, Owner owner, CancellationToken cancellation = default)
    {
        TimeSpan asked = Now;
        var turn = new Turn(this, NewClaim(question, priority, owner), null, cancellation);
        Enter(turn);
        return Answered(turn, question, asked);
    }

    /// <summary>A turn is over by the clock.</summary>
    internal void EndTurns() => Change(static (r, _, now) => r.At(now), null);

    private Claim NewClaim<T>(IQuestion<T> question, Priority priority, Owner owner) =>
        new(Interlocked.Increment(ref arrivals), priority, owner, question.IsWide ? int.MaxValue : 1);

    private void Work<T>(Turn turn, IQuestion<T> question, TimeSpan asked, TaskCompletionSource<T> answer, CancellationToken cancellation)
    {
        try
        {
            answer.TrySetResult(Answered(turn, question, asked));
        }
        catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
        {
            answer.TrySetCanceled(cancellation);
        }
        catch (Exception e)
        {
            answer.TrySetException(e);
        }
    }

    private T Answered<T>(Turn turn, IQuestion<T> question, TimeSpan asked)
    {
        TimeSpan begun = asked;
        Ending ending = Ending.Failed;
        try
        {
            turn.Wait();
            begun = Now;
            T answer = question.Answer(turn.Pace());
            ending = Ending.Done;
            return answer;
        }
        catch (OperationCanceledException)
        {
            ending = Ending.GivenUp;
            throw;
        }
        finally
        {
            Leave(turn);
            Operations.Note(question.GetType(), ending, begun - asked, Now - begun);
        }
    }

    private void Enter(Turn turn)
    {
        turns[turn.Claim.Number] = turn;
        Change(static (r, turn, now) => r.With(turn!.Claim, now), turn);
    }

    private void Leave(Turn turn)
    {
        turns.TryRemove(turn.Claim.Number, out _);
        Change(static (r, turn, now) => r.Without(turn!.Claim.Number, now), turn);
    }

    private void Change(Func<Roster, Turn?, TimeSpan, Roster> change, Turn? turn)
    {
        Roster before, after;
        do after = change(before = Roster, turn, Now);
        while (Interlocked.CompareExchange(ref roster, after, before) != before);
        foreach (Claim claim in after.Working)
            if (!before.IsWorking(claim.Number) && turns.TryGetValue(claim.Number, out Turn? woken)) woken.Wake();
    }
}
