-- want: BAD_RECIPE "'version' is made of"
-- whole file
-- Tried: a version that goes on with recipes that took no part
-- Held by: letters, digits and marks only
return recipe { title = "t", version = "1.0.0, quote 2.0.0", level = 1, work = function () return {} end }
