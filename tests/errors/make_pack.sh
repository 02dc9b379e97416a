# For the reproducers of class pack: a pack in mail/bench, and whether the studio is as it was.

# The studio, byte for byte, without the mail and the keys.
state() {
    find . \( -path ./mail -o -path ./keys \) -prune -o -print | sort
    find . -type f ! -path './mail/*' ! -path './keys/*' -exec sha256sum {} + | sort
}

mkdir -p mail/bench/recipes mail/bench/scripts keys
cat >mail/bench/recipes/rule_hours.lua <<'LUA'
local bench = require "bench_tables"
return rule "hours" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function (job) return { charged = job.worked:up_to(bench.step) } end,
  proofs = {
    { "by the begun quarter", given = { worked = "3.1 h" }, expect = { charged = "3.25 h" }, source = "186 min are more than 12 quarters" },
  },
}
LUA
cat >mail/bench/recipes/polish.lua <<'LUA'
return recipe {
  title = "Time to polish", version = "1.0.0", licence = "CC0-1.0", level = 1,
  asks = { mass = ask.mass "The piece" },
  gives = { time = give.time "Time to polish" },
  work = function (job) return { time = job.mass / Q "1 g" * Q "2 min" } end,
  proofs = { { "two minutes a gram", given = { mass = "5 g" }, expect = { time = "10 min" }, source = "5 times 2" } },
}
LUA
echo 'return { step = Q "15 min" }' >mail/bench/scripts/bench_tables.lua
lemel pack -q mail/bench version=1.0.0 licence=CC0-1.0

sums() { lemel pack -q mail/bench; }
before=$(state)
# What is tried, after which the studio must be as it was before.
adopt() {
    lemel adopt -q mail/bench "$@"
    status=$?
    [ "$(state)" = "$before" ] || echo "the studio is another one now" >&2
    exit $status
}
# A key that belongs to the name, and whether the studio trusts it.
key() {
    ssh-keygen -q -t ed25519 -N '' -C "$1" -f "keys/$1"
    [ "$2" != trusted ] || echo "$1 namespaces=\"lemel-pack\" $(cut -d' ' -f1,2 "keys/$1.pub")" >>allowed_signers
    before=$(state)
}
sign() { ssh-keygen -q -Y sign -f "keys/$1" -n "${2:-lemel-pack}" mail/bench/pack.json 2>/dev/null; }
