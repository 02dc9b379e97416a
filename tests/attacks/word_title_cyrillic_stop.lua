-- want: BAD_RECIPE "it contains \"STOP\""
-- whole file
-- Tried: a tag in letters that only look Latin
-- Held by: letters are read as what they look like (base/letter)
return recipe { title = "ЅТОР lifted", version = "1", level = 1, work = function () return {} end }
