# Two colours in one text, where each has one of its own.
printf '%s' '{"crucibles":[{"name":"big","material":"graphite","mass":"420 g","rating":"200 g","rated_in":"Au999.9 fine","allowed":["yellow, rose"]}]}' >house.json; lemel run need metal="Au750 yellow" wax="2 g"
