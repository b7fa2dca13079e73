#!/usr/bin/env bash
# One run, one mesh, the same planes: our cut, the plain loop, and two public geometry libraries. A library that is not
# there is skipped with its reason. Prints a table for the README.
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
dotnet build -c Release -v q --nologo "$here" >/dev/null
run() { dotnet "$here/bin/Release/net10.0/Trimwright.Benchmarks.dll" side-by-side "$work" 400; }
run | tee "$work/ours.tsv"
: >"$work/others.tsv"
if ! command -v npm >/dev/null; then echo "skipped manifold-3d: no Node on this machine"
elif ! (cd "$here" && npm install --ignore-scripts --silent --no-package-lock >/dev/null 2>&1); then echo "skipped manifold-3d: npm could not install it"
else node "$here/manifold.mjs" "$work" | tee -a "$work/others.tsv"; fi
if ! /usr/bin/python3 -c 'import vtk' 2>/dev/null; then echo "skipped VTK: python3-vtk9 is not installed"
else /usr/bin/python3 "$here/vtk_clip.py" "$work" | tee -a "$work/others.tsv"; fi
echo
echo "$(date -u +%F), $(nproc) cores, $(awk -F': ' '/model name/{print $2; exit}' /proc/cpuinfo)"
awk -F'\t' '
  FNR==NR { if ($1=="ours") { fast[$2]=$3; plain[$2]=$4; bytes[$2]=$5; pays[$2]=$6; order[++n]=$2 } next }
  { other[$1,$2]=$3 }
  END {
    print "| attitude | our cut, µs | plain loop | manifold-3d | VTK | bytes a cut | sums repay after |"
    print "| --- | --- | --- | --- | --- | --- | --- |"
    for (i=1;i<=n;i++) { a=order[i]
      m=((("manifold-3d",a) in other) ? sprintf("%.0f times", other["manifold-3d",a]/fast[a]) : "skipped")
      v=((("vtk",a) in other) ? sprintf("%.0f times", other["vtk",a]/fast[a]) : "skipped")
      printf "| %s | %.1f | %.1f times | %s | %s | %s | %s cuts |\n", a, fast[a], plain[a]/fast[a], m, v, bytes[a], pays[a] }
  }' "$work/ours.tsv" "$work/others.tsv"
