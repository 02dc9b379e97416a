-- want: BAD_RECIPE "sha256:"
-- whole file
-- Tried: a title that is a digest
-- Held by: wording of declared texts
return recipe { title = "sha256:5f0c", version = "1", level = 1, work = function () return {} end }
