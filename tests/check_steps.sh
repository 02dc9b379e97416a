#!/bin/sh
# A recipe can be followed step by step: none of its functions is over 60 lines. Its proofs are a list, and as long as they
# need to be. A function ends at the `end` that is indented as far as the line it begins on.
cd "$(dirname "$0")/.." || exit 70
awk '
  FNR == 1 { depth = 0 }
  { match($0, /^ */); indent = RLENGTH }
  /(^|[^a-z_])function[ (]/ && !/[^a-z_]end[,) }]*$/ {
    depth++
    from[depth] = FNR; at[depth] = indent; words[depth] = $0; list[depth] = /proofs *= *function/
  }
  depth > 0 && /^ *end([^a-z_]|$)/ && indent == at[depth] {
    lines = FNR - from[depth] + 1
    functions++
    if (lines > 60 && !list[depth]) {
      printf "%s:%d: %d lines; cut it into steps of at most 60:%s\n", FILENAME, from[depth], lines, words[depth]
      long++
    }
    depth--
  }
  END { printf "%d functions, %d too long\n", functions, long; exit !(functions > 200 && long == 0) }
' recipes/*.lua $(find examples -name '*.lua')
