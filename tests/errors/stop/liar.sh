cat >liar.lua <<'LUA'
return recipe {
  title = "Marks as one likes", version = "1.0.0", licence = "CC0-1.0", level = 1, about = "It leaves the law out.",
  asks = { place = ask.text { "Where" }, body = ask.mass { "Body" }, body_fineness = ask.fineness { "Its fineness" },
           parts = ask.list { "Parts", default = {}, source = "none", of = ask.record { "A part", fields = {
             what = ask.text { "What" }, mass = ask.mass { "Mass" }, fineness = ask.fineness { "Fineness" } } } } },
  gives = { stamp = give.text "Mark", marks = give.list { "Marks", of = give.record { "A mark", fields = {
    symbol = give.text "Metal", stamp = give.text "Mark" } } } },
  work = function() return { stamp = "925", marks = { { symbol = "Au", stamp = "750" } } } end,
}
LUA
liar() { lemel run -q ./liar.lua place=UK body='10 g' "$@" >out 2>err; code=$?; grep -hA3 'STOP ' out err >&2; return $code; }
