# shellcheck shell=bash
# What the checks have in common; each begins with: . "$RECIPES/check.sh"
set -euo pipefail

# Ends with this status: status 1 command words...
status() {
    local wanted=$1 got=0
    shift
    "$@" >out 2>err || got=$?
    [ "$got" -eq "$wanted" ] && return
    echo "$*: status $got, not $wanted" >&2
    cat out err >&2
    return 1
}

# A file is what it should be: same wanted found
same() {
    diff -u "$1" "$2" >&2
}

# A job in which nothing has to be referred, and a shelf for it.
clean_job() {
    cat >job.toml <<'JOB'
title = "Inspection cover"

[[row]]
name = "A1"
about = "cover to frame"
structure = "secondary"
member = "skin"
installed = "MS20470AD4-4"
layers = [
    { role = "skin", material = "clad 2024-T3", thickness = ".032" },
    { role = "rib-flange", material = "2024-T3", thickness = ".050" },
]
count = 20
pitch = "3/4"
edge = "3/8"
JOB
    printf 'part,on_hand,pack\nMS20470AD4-4,5,50\n' >stock.csv
}
