#!/bin/sh
# A job file and a stock list in, a shopping list out: part and number to buy, a tabulator between them.
#
#     ./order.sh JOB.toml STOCK.csv > shopping.tsv
#
# Ends with 0 when the list is whole; with 1 when single holes have to be referred, so that the list is whole but for them; with 4 when
# more than single holes stops the work: then nothing is bought yet. With 2 or 3, as shophead does, when something is wrong.
set -eu

if [ $# -ne 2 ]; then
    echo "usage: order.sh JOB.toml STOCK.csv" >&2
    exit 2
fi
job=$1 stock=$2
scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

# The answer of a command into a file. 0 and 1 are answers; with 2 and 3 shophead has said on the error stream what is wrong.
refers=0
ask() {
    into=$1
    shift
    status=0
    shophead "$@" --format json >"$into" || status=$?
    case $status in
    0) ;;
    1) refers=1 ;;
    *) exit "$status" ;;
    esac
}

ask "$scratch/plan" plan "$job"
# What stops the work, and is not one hole.
jq -r '.findings[] | select(.severity == "refer" and .answer == null) | "\(.subject): \(.message)"' "$scratch/plan" >"$scratch/stops"
if grep -v '^row .* hole [0-9]*: ' "$scratch/stops" >&2; then
    echo "Nothing is ordered before this is settled." >&2
    exit 4
fi

ask "$scratch/order" order "$job" --stock "$stock"
jq -r '.result.lines[] | select(.buy > 0) | [.part, .buy] | @tsv' "$scratch/order"
if [ "$refers" -eq 1 ]; then
    echo "Without a rivet yet, and not in the list: $(jq .result.without_rivet "$scratch/order") holes." >&2
    cat "$scratch/stops" >&2
    exit 1
fi
