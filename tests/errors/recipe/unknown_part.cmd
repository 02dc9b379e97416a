cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1, asx = {}, gives = {}, work = function() end }
END
lemel run r.lua
