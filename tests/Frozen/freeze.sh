#!/usr/bin/env bash
# Freezes the answers of a commit: builds it aside, draws the inputs with its own generators, asks everything, and packs
# inputs and answers into a folder beside this script. `freeze.sh 4697fdc 0.1.0`; a folder that is there keeps its inputs.
set -euo pipefail
commit=${1:?a commit} name=${2:?the name of its folder, a version}
here=$(cd "$(dirname "$0")" && pwd)
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
aside=$(mktemp -d)
trap 'git -C "$here" worktree remove --force "$aside/source" 2>/dev/null || true; rm -rf "$aside"' EXIT
git -C "$here" worktree add --quiet --detach "$aside/source" "$commit"

dotnet publish "$aside/source/src/App" -c Release -v q -o "$aside/program"
dotnet build "$here/Trimwright.Frozen.csproj" -c Release -v q -o "$aside/tool"
if [ ! -d "$here/$name/inputs" ]; then
  # Built from a copy: what belongs to the other commit must not stay in this tree.
  cp -r "$here/Draw" "$aside/draw"
  rm -rf "$aside/draw/bin" "$aside/draw/obj"
  cp "$aside/source/Directory.Build.props" "$aside/source/Directory.Packages.props" "$aside/source/global.json" "$aside/"
  dotnet run --project "$aside/draw" -c Release -v q -p:Frozen="$aside/source" -- "$aside/source" "$here/$name/inputs"
fi
dotnet "$aside/tool/Trimwright.Frozen.dll" freeze "$aside/program" "$here/$name"
# Asked a second time, and as whole processes, it says the same.
dotnet "$aside/tool/Trimwright.Frozen.dll" compare "$aside/program" "$here/$name"
dotnet "$aside/tool/Trimwright.Frozen.dll" compare "$aside/program" "$here/$name" --started --share quick
