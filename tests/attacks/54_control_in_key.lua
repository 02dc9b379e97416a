-- want: BAD_RECIPE "characters that cannot be printed"
return { named = { ["\27[2J"] = 1 } }
