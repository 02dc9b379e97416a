sed "/^  proofs = {/,/^  },/d" recipes/cast.lua > tin.lua; lemel adopt -q tin.lua --unproved
