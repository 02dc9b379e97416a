-- The words of a text as a stamp or a description has them: in capitals, with or without their accents, figures apart.
--
-- For scripts that look for words in what was read off a piece (plated, stamps). No patterns, no languages: letters only.

-- A small letter, its capital, and what the capital is without its accent: two bytes, two bytes and the rest.
local LETTERS = "áÁA àÀA âÂA äÄA ãÃA åÅA ąĄA æÆAE çÇC ćĆC čČC ďĎD éÉE èÈE êÊE ëËE ęĘE ěĚE íÍI ìÌI îÎI ïÏI łŁL ñÑN ńŃN ňŇN óÓO òÒO ôÔO "
             .. "öÖO õÕO őŐO øØO řŘR śŚS šŠS şŞS ťŤT úÚU ùÙU ûÛU üÜU ůŮU űŰU ýÝY źŹZ żŻZ žŽZ ğĞG œŒOE μµµ аАА бББ вВВ гГГ дДД еЕЕ ёЁЕ жЖЖ "
             .. "зЗЗ иИИ йЙЙ кКК лЛЛ мММ нНН оОО пПП рРР сСС тТТ уУУ фФФ хХХ цЦЦ чЧЧ шШШ щЩЩ ъЪЪ ыЫЫ ьЬЬ эЭЭ юЮЮ яЯЯ"
local with_accent, without = { ["ı"] = "I" }, { ["ß"] = "SS", ["ı"] = "I", ["İ"] = "I" }
for _, letter in ipairs(LETTERS:split(" ")) do
  local small, capital = letter:sub(1, 2), letter:sub(3, 4)
  with_accent[small] = capital
  without[small], without[capital] = letter:sub(5), letter:sub(5)
end

local ACUTE, ACCENTS = "\204\129", "\204"   -- as a character of its own behind its letter; the first byte of such accents
local KIND = {}
for i = 1, 10 do KIND[("0123456789"):sub(i, i)] = "digit" end
for i = 1, 26 do KIND[("ABCDEFGHIJKLMNOPQRSTUVWXYZ"):sub(i, i)] = "letter" end

local function read(t, letters, decimals)
  if not decimals and t:letters() == #t then return " " .. t:words() .. " ", false end
  local out, i, last, accented = {}, 1, nil, false
  t = t:upper()
  while i <= #t do
    local c = t:sub(i, i)
    local kind, taken = KIND[c], 1
    if not kind and c >= "\128" then
      local two = t:sub(i, i + 1)
      accented = true
      if c == ACCENTS then
        if two == ACUTE and out[#out] == "E" then out[#out] = letters["é"] end
        c, kind, taken = "", last, 2
      elseif letters[two] or with_accent[two] then
        c, kind, taken = letters[two] or with_accent[two], "letter", 2
      else
        kind = "letter"
      end
    elseif not kind and decimals and (c == "." or c == ",") and last == "digit" and KIND[t:sub(i + 1, i + 1)] == "digit" then
      c, kind = ".", "digit"
    end
    if last and kind ~= last then table.insert(out, " ") end
    if kind then table.insert(out, c) end
    last, i = kind, i + taken
  end
  return " " .. table.concat(out):trim() .. " ", accented
end

-- The few texts of a piece are read many times: each is split only once.
local known = { [with_accent] = { [true] = {}, [false] = {} }, [without] = { [true] = {}, [false] = {} } }
-- The words of a text in capitals, a blank on either side of each, and whether any has an accent. `letters` is `with` or
-- `without` accents. Figures are words of their own ("20MICRONS"), and with `decimals` a point between two of them stays.
--     letters.words("Gold 750!", letters.without):trim()   -- GOLD 750
local function words(t, letters, decimals)
  local apart = decimals and (t:find "." or t:find ",") ~= nil or false   -- a text without either is read alike
  local texts = known[letters][apart]
  local found = texts[t]
  if not found then
    found = { read(t, letters, apart) }
    texts[t] = found
  end
  return found[1], found[2]
end

return { words = words, with = with_accent, without = without }
