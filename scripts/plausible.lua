-- Whether figures can be true together. Each check compares one figure of a job with another that
-- the job also gives, and says which two clash and what was probably meant.
--
-- A check gives words where something looks wrong, and nil where nothing does. What cannot be is an error (`refuse`);
-- what is only unlikely is asked (`ask`), with a code and what depends on it, and somebody who knows better confirms it.

-- A point to confirm where there are words; nothing where they are nil.
local function ask(sheet, code, words, gives)
  if words then sheet:confirm(code, words, gives) end
end

-- An error where there are words; nothing where they are nil.
local function refuse(words)
  if words then error(words) end
end

-- ---- what is said, and how often -----------------------------------------------------------------------------

-- The one of several ways to say a thing that was taken; refused when there are none, or two.
local function one_of(job, names, what)
  local found = nil
  for _, name in ipairs(names) do
    if job[name] then
      if found then
        error(text.fill("{what} is given twice, by {a} and by {b}: leave one out", { what = what, a = found, b = name }))
      end
      found = name
    end
  end
  return found or error(text.fill("{what} is missing: give {list}", { what = what, list = table.concat(names, " or ") }))
end

-- A figure that nothing uses is a slip: the person who wrote it meant something by it. `why` says what it would be for.
local function unused(job, names, why)
  for _, name in ipairs(names) do
    if job[name] ~= nil then
      error(text.fill("{name} was given but is not used: {why}. Leave it out, or give what is missing", { name = name, why = why }))
    end
  end
end

-- ---- sizes ----------------------------------------------------------------------------------------------------

-- The outside of a ring or a tube is larger than its inside.
local function inside_outside(inside, outside)
  if outside > inside then return nil end
  return text.fill("{inside} inside and {outside} outside: the outside is the larger one. Are the two swapped?", { inside = inside, outside = outside })
end

-- Flat stock is wider than it is thick.
local function width_thickness(width, thickness)
  if not (width and thickness) or thickness <= width then return nil end
  return text.fill("{thickness} thick and {width} wide: are width and thickness swapped?", { thickness = thickness, width = width })
end

-- The thickest that a gauge number reaches is 0000, 0.46 in. A figure in mm that is a usual number was probably meant as
-- one; no wire of a goldsmith is so thick. Source: GNU units, definitions.units 3.15 (2022), wiregauge.
local THICKEST_NUMBER = Q "0.46 in"
-- Words where a thickness is thicker than any gauge number, so that the number was probably meant; else nil.
local function gauge_in_mm(thickness, thickness_of)
  if thickness <= THICKEST_NUMBER then return nil end
  local number = thickness:number "mm"
  local whole = number <= 40 and floor(number) == number and floor(number) or nil
  return text.fill("{thickness} is thicker than any wire or sheet that has a gauge number (0000 is {most}){meant}", {
    thickness = thickness, most = (THICKEST_NUMBER:as "mm"):nearest "0.01 mm",
    meant = whole and text.fill(". Is it number {n}, which is {t}? Then write \"gauge\": {n}", { n = whole, t = thickness_of(whole):nearest "0.001 mm" }) or "" })
end

-- ---- masses ---------------------------------------------------------------------------------------------------

-- What is heavier than such a thing ever is: asked from `most` on, and refused from a hundred times that on. Common practice,
-- no source.
local ABSURD = 100
-- A mass above the most that is believed is a point to confirm, and far above it an error.
local function heavy(sheet, code, what, mass, most, gives)
  if mass <= most then return end
  local words = text.fill("{what}: {mass} is more than the most that is believed ({most}). Is a size, a gauge or a unit wrong?", { what = what, mass = mass, most = most })
  if mass > ABSURD * most then error(words) end
  sheet:confirm(code, words, gives)
end

-- More than any piece of jewellery weighs. Common practice, no source.
local JEWEL = "1 kg"
-- The same for a piece of jewellery, with one limit for all.
local function heavy_piece(sheet, what, mass, gives) heavy(sheet, "heavy", what, mass, Q(JEWEL), gives) end

-- ---- baths and tanks ------------------------------------------------------------------------------------------

-- A bath's own figures: { volume, strength, floor, concentrate }.
local function tank(t, drag_out)
  if t.volume:is_zero() then return "a bath without volume deposits nothing: measure it" end
  if t.floor:is_zero() then return "a floor of 0 never calls the bath too weak: the maker's sheet says when to replenish it" end
  if t.floor >= t.strength then
    return text.fill("the bath is too weak below {floor}, but at full strength it has {strength}: are the two swapped?", { floor = t.floor, strength = t.strength })
  end
  if t.concentrate and t.concentrate <= t.strength then
    return text.fill("a concentrate of {c} is no stronger than the bath at {s}, so it cannot replenish it", { c = t.concentrate, s = t.strength })
  end
  if drag_out and drag_out >= t.volume then
    return text.fill("each load would carry {d} away, out of a bath of {v}", { d = drag_out, v = t.volume })
  end
end

-- Beyond these no bench keeps a bath. Gold baths hold 8.2 g/L at most, usually (an ASM Handbook text on gold plating), silver
-- several times that; how far that may go: common practice, no source.
local MOST = { volume = Q "100 L", strength = Q "50 g/L", concentrate = Q "300 g/L" }
-- Words where a figure of a bath is more than any bench keeps; else nil.
local function tank_size(t)
  for _, name in ipairs { "volume", "strength", "concentrate" } do
    if t[name] and t[name] > MOST[name] then
      return text.fill("a bath with a {name} of {given} is more than any bench keeps ({most}): is the unit right?", { name = name, given = t[name], most = MOST[name] })
    end
  end
end

-- More than this part of a bath on one load is poured, not dragged; and a film of a millimetre on all of the work, with 2 mL on
-- hooks and wires, is more than can stay on it. A few tenths of a millilitre are usual. Common practice, no source.
local DRAGGED, FILM, HOOKS = "2 %", "1 mm", "2 mL"
-- Words if a load cannot have dragged that much out of the bath; else nil.
local function drag_out(volume, dragged, surface)
  if dragged > Q(DRAGGED) * volume then
    return text.fill("{d} dragged out by each load is {part} of the bath of {v}: is the unit right?",
      { d = dragged, part = ((dragged / volume):as "%"):nearest "0.1 %", v = volume })
  elseif dragged > Q(FILM) * surface + Q(HOOKS) then
    return text.fill("{d} dragged out by each load, of {area}, would be a layer {t} thick: is the unit right?",
      { d = dragged, area = surface, t = ((dragged / surface):as "mm"):nearest "0.1 mm" })
  end
end

-- No bath gives more metal than it held.
local function loads_done(count, used, volume, strength)
  local held = strength * volume
  if count * used <= held then return nil end
  return text.fill("{n} loads of {used} are {all}, but the full bath only has {held}: it was topped up in between, or one of them is wrong. Count the loads since it was last at full strength",
    { n = count, used = used:nearest "0.01 mg", all = ((count * used):as "g"):nearest "0.001 g", held = (held:as "g"):nearest "0.001 g" })
end

return { ask = ask, refuse = refuse, one_of = one_of, unused = unused, inside_outside = inside_outside,
  width_thickness = width_thickness, gauge_in_mm = gauge_in_mm, heavy = heavy, heavy_piece = heavy_piece, tank = tank, tank_size = tank_size, drag_out = drag_out, loads_done = loads_done }
