# Sourced by tests of many cases. is_due: whether the next case is tried. All are, but with LEMEL_HALF in the environment
# every second one, and after some commits the others: the sanitizers make each case five times as long, and the release
# build tries all of them.
turn=$(printf '%d' "0x$(git -C "$(dirname "$0")" rev-parse --short=6 HEAD 2>/dev/null)" 2>/dev/null) || turn=0
is_due() {
    turn=$((turn + 1))
    [ -z "${LEMEL_HALF:-}" ] || [ $((turn % 2)) = 0 ]
}
