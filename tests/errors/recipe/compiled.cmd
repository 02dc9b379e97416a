cat > r.lua <<'END'
Lua
END
lemel run r.lua
