# Compares the instructions that are kept (first file) with those of now (second file): a table, and status 1 when one
# grew by more than 5 % or when there is no number on one side.
function trouble(text) { troubles = troubles "\n" text }
function row(operation, item, before, now, change) {
    printf "%-44s%-10s%14s%14s%10s\n", operation, item, before, now, change
}
function is_number(text) { return text ~ /^[0-9]+(\.[0-9]+)?$/ && text + 0 > 0 }
BEGIN { row("operation", "item", "kept", "now", "change") }

/^#/ || $1 == "operation" { next }
!is_number($3) { trouble(FILENAME ": no number for " $1); next }
FNR == NR { kept[$1] = $3; next }
!($1 in kept) {
    row($1, $2, "-", $3, "-")
    trouble($1 " has no number that is kept")
    next
}
{
    change = sprintf("%+.1f %%", 100 * ($3 / kept[$1] - 1))
    row($1, $2, kept[$1], $3, change)
    if ($3 > kept[$1] * 1.05) trouble($1 " takes more instructions: " change)
    if ($3 < kept[$1] * 0.95) ++fell
    delete kept[$1]
}
END {
    for (name in kept) trouble(name " is kept and no longer there")
    if (fell) print "\n" fell " took over 5 % fewer instructions; keep that: bench/track.sh --update"
    if (troubles) print troubles "\nWhere that is meant: bench/track.sh --update"
    exit (troubles != "")
}
