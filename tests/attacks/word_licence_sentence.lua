-- want: BAD_RECIPE "'licence' is made of"
-- whole file
-- Tried: a licence with a sentence that lemel would say
-- Held by: letters, digits and marks only
return recipe { title = "t", version = "1", licence = "CC0-1.0\"; proved: all", level = 1, work = function () return {} end }
