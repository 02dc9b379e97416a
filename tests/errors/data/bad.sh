# try WHAT NAME=VALUE ...: runs $job, a recipe or a job file, with the values named here, and says on one line what came of it:
# refused, with the message; asked or stopped, with the code; or right, with the figure that $figure finds.
try() {
    what=$1
    shift
    lemel run -q --sheet all "$job" "$@" >out 2>err
    code=$?
    if [ $code -gt 1 ]; then
        printf '%s: %s\n' "$what" "$(sed -n '1s/^[a-z]*\/[a-z_]*\.lua:[0-9]*: //; 1p' err)" >&2
    elif [ $code = 1 ]; then
        printf '%s:%s\n' "$what" "$(awk '/^ *(STOP|ASK) / { kind = $1 }
            kind && match($0, /\[[a-z]+\/[a-z0-9-]+\]/) {
                one = " " kind " " substr($0, RSTART, RLENGTH); kind = ""
                if (!seen[one]++) s = s one   # the bench page has at its head what another page has beside its figure
            } END { print s }' out)" >&2
    else
        printf '%s: right, %s\n' "$what" "$(grep -m1 "$figure" out | tr -s ' ')" >&2
    fi
}
