-- want: BAD_RECIPE "what cannot be printed"
return { named = { ["\27[2J"] = 1 } }
