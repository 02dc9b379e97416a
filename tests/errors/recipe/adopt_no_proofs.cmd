sed "/^  proofs = {/,/^  },/d" recipes/pour.lua > tin.lua; lemel adopt -q tin.lua
