# What happens to bad figures, one line each: sourced by bad/*.cmd, whose file `base` has a good job, one NAME=VALUE per line.
#   try NAME VALUE ...    VALUE in place of the good one; - leaves it out
#   also NAME=VALUE       one more beside the good ones: the same thing told twice
# A line says refused (with the first line of why), asked or stopped (with the codes), or taken.

became() {
    if [ "$1" = 0 ]; then
        echo "taken"
    elif grep -q '^\(STOP\|ASK\) ' err; then
        awk '/^(STOP|ASK) / { how = $1 == "STOP" ? "stopped" : "asked" }
             match($0, /\[[a-z_]+\/[a-z0-9-]+\]$/) && how { printf "%s%s %s", many++ ? ", " : "", how, substr($0, RSTART + 1, RLENGTH - 2); how = "" }
             END { print "" }' err
    else
        sed -n '1{s/^[a-z ]*:1: //; s/^the command line: //; s/lua:[0-9]*:/lua:/; s/^/refused: /; p; q}' err
    fi
}

run_these() {
    xargs -d '\n' lemel run "$recipe" --format json -q >out 2>err
    became $?
}

try() {
    name=$1
    shift
    for value in "$@"; do
        printf '%s = %s: ' "$name" "$value" >&2
        { grep -v "^$name=" base; [ "$value" = - ] || echo "$name=$value"; } | run_these >&2
    done
}

also() {
    printf 'also %s: ' "$1" >&2
    { cat base; echo "$1"; } | run_these >&2
}
