#!/bin/sh
# Sheets of what nobody should write, and of more than anybody needs: markup in every text of job and house, a title of 4,000 letters without a
# blank, names as long as a line, writing from right to left, control characters and an escape sequence, 60 lots, 12 flasks, a recipe that draws
# nothing, one whose reasons to stop fill sheets, a picture of sixty lots, markup in every text of a recipe.
#
#   sh tests/page/hostile.sh PATH-OF-LEMEL FOLDER: writes FOLDER/hostile-NAME-PAPER.html and .txt
here=$(cd "$(dirname "$0")" && pwd) || exit 70
lemel=$1
folder=$2
cd "$here/../../examples" || exit 66
status=0

# make NAME JOB WORDS...: both faces of it. A job that a rule stops is as good as another.
make() {
    name=$1
    job=$2
    shift 2
    for paper in A4 Letter; do
        "$lemel" run "$job" "$@" --sheet all --format html --paper $paper -o "$folder/hostile-$name-$paper.html" --replace -q >"$folder/log" 2>&1
        [ $? -le 1 ] || { echo "hostile $name: $(head -2 "$folder/log")"; status=1; }
    done
    "$lemel" run "$job" "$@" --sheet all -q >"$folder/hostile-$name.txt" 2>/dev/null
}

mark='<script>alert(1)<\/script><img src=x onerror=alert(2)>\&amp;<\/style>'
sed "s/Cuff links for a retired brakeman/$mark/; s/Tobiah Merrowick/$mark/; s/ring A/<b>ring A<\/b>/g; s/one red stone/$mark/; s/A pair of octagonal/$mark/; s/the rings are melted/$mark the rings are melted/" jobs/cuff-links.json >"$folder/markup.json"
sed "s/Slagrose Casting Loft/$mark/" house.json >"$folder/markup-house.json"
make markup "$folder/markup.json" --house "$folder/markup-house.json" --prices prices.json

long=$(awk 'BEGIN { for (i = 0; i < 4000; i++) printf "w" }')
sed "s/Cuff links for a retired brakeman/$long/" jobs/cuff-links.json >"$folder/long.json"
make long "$folder/long.json" --house house.json --prices prices.json

sed "s/ring A/the grandmother's wide hinged bangle with the worn engraving and both of its catches/g; s/14K grain/grain out of the studio's own tin on the upper shelf/g" jobs/cuff-links.json >"$folder/names.json"
make names "$folder/names.json" --house house.json --prices prices.json

sed 's/Cuff links for a retired brakeman/\\u05d0\\u05d1\\u05d2 585 \\u0627\\u0644\\u0630\\u0647\\u0628 (ring)/; s/Tobiah Merrowick/\\u05e9\\u05dc\\u05d5\\u05dd/' jobs/cuff-links.json >"$folder/turned.json"
make turned "$folder/turned.json" --house house.json --prices prices.json

# What steers a terminal, or turns the direction of writing, is refused before anything is drawn.
for letter in '\\u202e' '\\u001b[31m' '\\u0007' '\\u009b'; do
    sed "s/Cuff links for a retired brakeman/$letter turned/" jobs/cuff-links.json >"$folder/control.json"
    "$lemel" run "$folder/control.json" --house house.json --prices prices.json --format html -o "$folder/control.html" --replace >"$folder/log" 2>&1
    [ $? = 65 ] || { echo "hostile: $letter in a title is not refused: $(head -1 "$folder/log")"; status=1; }
done

awk 'BEGIN { printf "{ \"recipe\": \"charge\", \"title\": \"Sixty lots\", \"given\": { \"mass\": \"720 g\", \"target\": \"660 ‰\", \"lots\": ["
    for (i = 1; i <= 60; i++) printf "%s{ \"name\": \"lot %d\", \"metal\": \"%s\", \"mass\": \"%d g\" }", (i > 1) ? ", " : "", i, (i % 2) ? "Au750 yellow 3N" : "Au417 yellow", (i % 2) ? 18 : 6
    print "] } }" }' >"$folder/lots.json"
make lots "$folder/lots.json" --house house.json --prices prices.json

awk 'BEGIN { printf "{ \"recipe\": \"day\", \"title\": \"Twelve flasks\", \"date\": \"2026-11-24\", \"given\": { \"pour\": \"2026-11-27T14:00\", \"load\": ["
    for (i = 1; i <= 12; i++) printf "%s{ \"name\": \"flask %d\", \"diameter\": \"63.5 mm\", \"height\": \"63.5 mm\", \"pattern\": \"wax\", \"temperature\": \"%d °C\", \"metal\": \"Au750 yellow 3N\" }", (i > 1) ? ", " : "", i, 600 - 10 * int(i / 4)
    print "] } }" }' >"$folder/flasks.json"
make flasks "$folder/flasks.json" --house house.json --prices prices.json

mkdir -p "$folder/empty/recipes"
echo '{}' >"$folder/empty/house.json"
cat >"$folder/empty/recipes/nothing.lua" <<'LUA'
return recipe { title = "Nothing drawn", version = "1.0.0", licence = "CC0-1.0", level = 1, asks = {}, allowances = {},
  gives = { mass = give.mass "What comes out" }, work = function () return { mass = Q "1 g" } end }
LUA
make empty "$folder/empty/recipes/nothing.lua"
cat >"$folder/empty/recipes/reasons.lua" <<'LUA'
return recipe { title = "Sixty reasons", version = "1.0.0", licence = "CC0-1.0", level = 1, asks = {}, allowances = {},
  gives = { mass = give.mass "What comes out" }, work = function (job, house, sheet)
    for i = 1, 60 do
      sheet:stop("no-" .. i, "What was weighed and what was said differ by more than the scale can explain, so weigh it again before anything is melted, and ask whoever weighed it first", { "mass" })
    end
    sheet.bench:weigh("Metal", Q "5 g", { record = "metal" })
    return { mass = Q "1 g" }
  end }
LUA
make reasons "$folder/empty/recipes/reasons.lua"
cat >"$folder/empty/recipes/tall.lua" <<'LUA'
return recipe { title = "Out of sixty lots", version = "1.0.0", licence = "CC0-1.0", level = 1, asks = {}, allowances = {},
  gives = { mass = give.mass "What comes out" }, work = function (job, house, sheet)
    local moves = {}
    for i = 1, 60 do moves[i] = { "lot " .. i, "the melt", Q "1 g" } end
    table.insert(moves, { "the melt", "piece", Q "60 g" })
    sheet.metal:flow(moves)
    return { mass = Q "60 g" }
  end }
LUA
make tall "$folder/empty/recipes/tall.lua"
cat >"$folder/empty/recipes/evil.lua" <<'LUA'
local M = "<img src=x onerror=a>\"'&amp;</svg></style><script>1</script>]]>"
return recipe { title = M, version = "1.0.0", licence = "CC0-1.0", level = 1, heads = M,
  asks = { m = ask.mass { M, default = "5 g", source = M } }, allowances = {}, gives = { mass = give.mass(M), held = give.mass(M) },
  work = function (job, house, sheet)
    local q, held = Q "5 g", job.m * 1.2345
    for _, page in ipairs { sheet.bench, sheet.metal, sheet.client, sheet.card, sheet.cost, sheet.piece } do
      page:heading(M)
      page:weigh(M, q, { record = M, owner = M, step = Q "0.01 g" })
      page:weigh(M .. "2", q, { record = M .. "2", step = Q "0.01 g", owner = M })
      page:total(M, Q "10 g")
      page:set(M, q, { record = M .. "s" })
      page:measure(M, nil, { least = q, record = M .. "m" })
      page:tick(M, { record = M .. "t" })
      page:line(M, M, { from = M })
      page:text(M)
      page:note("n", M)
      page:caution("c", M)
      page:grid { columns = { M, M }, rows = { { M, { box = true } }, { q, M } }, total = { M, M } }
      page:sign(M, { M, M })
      page:flow { { M, M .. "a", q }, { M .. "a", M .. "b", q }, owners = { [M] = M, [M .. "b"] = "studio" }, title = M }
    end
    sheet.bench:confirm("q", M, { "held" })
    sheet.bench:line(M, held, { of = "held" })
    sheet.metal:flow { { "held a", "held b", held }, of = "held" }
    return { mass = q, held = held }
  end }
LUA
make evil "$folder/empty/recipes/evil.lua"
for face in html txt; do   # 5 g times 1.2345, which is withheld
    grep -l '6\.17' "$folder"/hostile-evil*.$face && { echo "hostile evil: a figure that is withheld is in the file"; status=1; }
done
exit $status
