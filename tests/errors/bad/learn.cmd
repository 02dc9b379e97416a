. "$(dirname "$0")/../bad_input.sh"
recipe=learn
cat >base <<'GOOD'
allowance=wastage
was=8 %
jobs=[{"job":"clasp","actual":"7.9 %"},{"job":"ring","actual":"8.4 %"},{"job":"pin","actual":"8.1 %"}]
old_counts=5
least_jobs=6
large_change=15 %
GOOD
try allowance wastge need.wastage needs.history crucibles need.skull '' -
try was '0 %' '-8 %' '8000 %' '8 g' 8 -
try jobs '[]' '[{"job":"clasp","actual":"7.9 %"}]' '[{"job":"clasp","actual":"0 %"},{"job":"ring","actual":"8.4 %"}]' '[{"job":"clasp","actual":"-7.9 %"},{"job":"ring","actual":"8.4 %"}]' '[{"job":"clasp","actual":"7900 %"},{"job":"ring","actual":"8.4 %"}]' '[{"job":"clasp","actual":"0.79 g"},{"job":"ring","actual":"8.4 %"}]' '[{"job":"clasp","actual":7.9},{"job":"ring","actual":"8.4 %"}]' '[{"job":"clasp"},{"job":"ring","actual":"8.4 %"}]' '[{"job":"clasp","predicted":"10 g","actual":"0.79 g"},{"job":"ring","predicted":"10 g","actual":"0.84 g"}]' '[{"job":"clasp","predicted":"10 g","actual":"10.79 g"},{"job":"ring","predicted":"10 g","actual":"10.84 g"}]' -
try old_counts -1 1000 -
try least_jobs 0 2.5 1000 -
try large_change '-1 %' '1500 %' -
also 'was=9 %'
