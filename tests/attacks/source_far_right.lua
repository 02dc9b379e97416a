-- want: BAD_RECIPE "more text after"
-- Tried: code 400 blanks to the right, where no reader looks
-- Held by: a line that goes on after more than 160 blanks is refused
local n = 1                                                                                                                                                                                                                                                                                                                                                                                                                n = 7
return { number = n }
