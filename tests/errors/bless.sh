#!/bin/sh
# Writes every stored rendering anew: bless.sh PATH-OF-LEMEL [CLASS/NAME ...]. Then look at `git diff` before keeping it.
exec sh "$(dirname "$0")/check.sh" --bless "$@"
