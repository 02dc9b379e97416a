cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", gives = {}, work = function() return {} end }
END
lemel check r.lua
