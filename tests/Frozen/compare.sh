#!/usr/bin/env bash
# Asks the program of this tree what was asked of a frozen one, and prints each answer that differs and that findings.json
# does not let differ. `compare.sh [0.1.0] [--table] [--only TEXT] [--share quick|sixth|all] [--started]`; --table prints every
# changed number with its finding instead.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
name=0.1.0
if [ $# -gt 0 ] && [[ $1 != --* ]]; then name=$1; shift; fi
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1
dotnet build "$here/../../src/App" -c Release -v q >&2
dotnet build "$here/Trimwright.Frozen.csproj" -c Release -v q >&2
dotnet "$here/bin/Release/net10.0/Trimwright.Frozen.dll" compare "$here/../../src/App/bin/Release/net10.0" "$here/$name" --findings "$here/findings.json" "$@"
