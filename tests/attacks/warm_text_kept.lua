-- want: OK "\"value\":\"4096\""
-- whole file
-- Long texts made in one run, held by an upvalue and looked for in the next by what a step costs and what it finds.
local seen = {}
return recipe { title = "Attack", version = "1", level = 1,
  gives = { out = give.text "Out" },
  work = function ()
    local long = text.rep("secret", 10000)
    local count = 0
    for _ in pairs(seen) do count = count + 1 end
    seen[long] = long
    return { out = tostring(4096 + count) }
  end }
