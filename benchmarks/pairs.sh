#!/usr/bin/env bash
# This tree's Core and an older commit's, by turns in one run: `pairs.sh 4697fdc 24` takes 24 pairs of each work. Processor time, so
# that other programs count little; the lure files are the older commit's, which both read.
set -euo pipefail
commit=${1:?a commit} pairs=${2:-24}
here=$(cd "$(dirname "$0")" && pwd)
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
aside=$(mktemp -d)
trap 'git -C "$here" worktree remove --force "$aside/source" 2>/dev/null || true; rm -rf "$aside"' EXIT
git -C "$here" worktree add --quiet --detach "$aside/source" "$commit"
root=$(cd "$here/.." && pwd)
for which in newer older; do
  # Built from a copy: what belongs to one commit must not meet what belongs to the other.
  cp -r "$here/Pairs" "$aside/$which"
  rm -rf "$aside/$which/bin" "$aside/$which/obj"
done
cp "$root/Directory.Build.props" "$root/Directory.Packages.props" "$root/global.json" "$aside/"
dotnet build "$aside/newer" -c Release -v q -p:Sources="$root" >&2
dotnet build "$aside/older" -c Release -v q -p:Sources="$aside/source" >&2
dotnet "$aside/newer/bin/Release/net10.0/Trimwright.Benchmarks.dll" pair \
  "$aside/newer/bin/Release/net10.0/Trimwright.Benchmarks.dll" "$aside/older/bin/Release/net10.0/Trimwright.Benchmarks.dll" \
  "$aside/source/demo" "$pairs"
