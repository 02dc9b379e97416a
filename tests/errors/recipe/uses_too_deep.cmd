for i in 0 1 2 3 4 5 6 7 8 9 10 11 12; do
    cat > recipes/r$i.lua <<END
return recipe { title = "T", version = "1.0.0", level = 1, uses = { "r$((i + 1))" }, gives = {}, work = function() return {} end }
END
done
lemel run r0
