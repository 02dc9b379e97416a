cat > r.lua <<'END'
return recipe {
END
lemel run r.lua
