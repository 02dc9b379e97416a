-- The answers of the house's rules, and what happens to a recipe whose rule stops: the figures that depend on it are withheld,
-- and the recipe goes on with the usual figure, so that no caution, no gate and no line is lost by it.

-- What the house's rule answers under that name; where the rule stops, a stop that withholds `gives`, and the usual answer.
local function answer(sheet, rule, name, usual, gives)
  if not withheld(rule, name) then return rule[name] end
  sheet:stop("house-rule", "A rule of the house stops here: see what it says", gives)
  return usual
end

return { answer = answer }
