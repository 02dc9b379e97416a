# The house's stock and lemel's table have the name: it is one metal.
printf '%s' '{"name":"Loft","stock":{"fine gold":"Au999.9 fine"}}' > own.json
lemel run need --house own.json metal="fine gol"
