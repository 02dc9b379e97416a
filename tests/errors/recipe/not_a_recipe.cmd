cat > r.lua <<'END'
return 1
END
lemel run r.lua
