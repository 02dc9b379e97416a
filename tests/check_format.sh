#!/bin/sh
# Every C file is formatted as .clang-format says. Versions of clang-format differ, so that of Debian 12 alone judges.
cd "$(dirname "$0")/.." || exit 70
version=$(clang-format --version 2>/dev/null | sed -n 's/.*version \([0-9]*\)\..*/\1/p')
if [ "$version" != 14 ]; then
    echo "skipped: clang-format 14 is not installed"
    exit 0
fi
failed=0
# Twenty at a time; one by one only to say which.
set -- engine/*.h engine/*/*.[ch] tests/*.h tests/*/*.[ch]
if ! printf '%s\n' "$@" | xargs -n 20 clang-format --dry-run -Werror >/dev/null 2>&1; then
    for file; do
        clang-format "$file" | cmp -s - "$file" && continue
        echo "$file: is formatted otherwise; clang-format -i $file"
        failed=$((failed + 1))
    done
fi
checked=$#
echo "$checked files, $failed formatted otherwise"
[ "$checked" -gt 100 ] && [ "$failed" = 0 ]
