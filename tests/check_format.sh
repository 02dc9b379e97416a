#!/bin/sh
# Every C file is formatted as .clang-format says. Versions of clang-format differ, so that of Debian 12 alone judges.
cd "$(dirname "$0")/.." || exit 70
version=$(clang-format --version 2>/dev/null | sed -n 's/.*version \([0-9]*\)\..*/\1/p')
if [ "$version" != 14 ]; then
    echo "skipped: clang-format 14 is not installed"
    exit 0
fi
checked=0
failed=0
for file in engine/*.h engine/*/*.[ch] tests/*.h tests/*/*.[ch]; do
    checked=$((checked + 1))
    clang-format "$file" | cmp -s - "$file" && continue
    echo "$file: is formatted otherwise; clang-format -i $file"
    failed=$((failed + 1))
done
echo "$checked files, $failed formatted otherwise"
[ "$checked" -gt 100 ] && [ "$failed" = 0 ]
