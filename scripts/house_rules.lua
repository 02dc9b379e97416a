-- What a rule of the house answers, and what becomes of a recipe whose rule stops: the figures that rest on it are withheld,
-- and the recipe goes on with the usual figure, so that no caution, no gate and no line is lost by it.

local function answer(sheet, rule, name, usual, gives)
  if not withheld(rule, name) then return rule[name] end
  sheet:stop("house-rule", "A rule of the house stops here: see what it says", gives)
  return usual
end

return { answer = answer }
