# The table of bench/run, and its JSON: one goal a line, which is how it is read again.
#
# In: tab-separated name, figure, unit, must, aim, "less" or "more" is better. Variables: date, triad (ns), load, json (file to
# write), before (file to compare with; may be missing).
BEGIN {
    FS = "\t"
    while ((getline line < before) > 0) {
        if (line !~ /"goal":/) continue
        name = text(line, "goal")
        old[name] = line
        order[++olds] = name
    }
    printf "%-62s %9s %-14s %6s %6s  %-11s %9s %6s\n", "goal", "figure", "", "must", "aim", "reached", "was", "times"
    printf "{\n\"written_as\": \"bench/run\", \"goals\": [" > json
}
{ tell($1, $2, $3, $4, $5, $6, date, triad, load, 0); seen[$1] = 1 }
END {
    for (k = 1; k <= olds; ++k) {
        name = order[k]; was = old[name]
        if (!(name in seen))
            tell(name, number(was, "figure"), text(was, "unit"), number(was, "must"), number(was, "aim"), text(was, "better"),
                 text(was, "date"), number(was, "triad_ns"), number(was, "load"), 1)
    }
    print "\n]\n}" > json
    printf "%d lines measured: %d reach their aim, %d what they must, %d fall short.\n", reached["aim"] + reached["must"] + reached["short"], reached["aim"], reached["must"], reached["short"]
}

function tell(name, figure, unit, must, aim, better, day, triad_ns, busy, carried,   word, was, then, times) {
    word = must == "null" && aim == "null" ? "-" : aim != "null" && holds(figure, aim, better) ? "aim" : must == "null" || holds(figure, must, better) ? "must" : "FALLS SHORT"
    if (!carried) ++reached[word == "FALLS SHORT" ? "short" : word]
    then = "-"; times = "-"
    if (carried) times = day
    else if (name in old) {
        was = old[name]
        then = number(was, "figure")
        if (then > 0 && figure > 0)
            times = sprintf("%.2f", unit == "s" || unit == "min" ? figure / triad_ns / (then / number(was, "triad_ns")) : figure / then)
    }
    printf "%-62s %9s %-14s %6s %6s  %-11s %9s %6s\n", name, figure, unit, dash(must), dash(aim), word, then, times
    printf "%s\n{\"goal\": \"%s\", \"figure\": %s, \"unit\": \"%s\", \"must\": %s, \"aim\": %s, \"better\": \"%s\", \"reached\": \"%s\", \"date\": \"%s\", \"triad_ns\": %s, \"load\": %s}", \
        written++ ? "," : "", name, figure, unit, must, aim, better, word == "FALLS SHORT" ? "no" : word, day, triad_ns, busy > json
}
function holds(figure, goal, better) { return better == "more" ? figure + 0 >= goal + 0 : figure + 0 <= goal + 0 }
function dash(goal) { return goal == "null" ? "-" : goal }
function text(from, key) { return match(from, "\"" key "\": \"[^\"]*\"") ? substr(from, RSTART + length(key) + 5, RLENGTH - length(key) - 6) : "" }
function number(from, key) { return match(from, "\"" key "\": [^,}]*") ? substr(from, RSTART + length(key) + 4, RLENGTH - length(key) - 4) : "null" }
