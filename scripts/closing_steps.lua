-- What a job still needs before it can be closed, in the order in which it is done, each with the command that enters it. JOB is
-- the job's file; MASS, PRICE and WHO are what only the person there knows. A step has the codes of the points that it settles.

local ledger = require "ledger"
local offers = require "offers"
local owners = require "owners"
local remains = require "remains"
local weighings = require "weighings"

local HAND_OVER = { ["return"] = true, keep = true }

local function command(words, values)
  local names = {}
  for _, n in ipairs { "name", "from", "what" } do
    local name = member(values, n)
    if name then names[n] = offers.in_quotes(name) end
  end
  return text.fill(words, copy(values, names))
end

local function accepted(offered, add)
  if offered and not offered.accepted and not offered.withdrawn and not offered.changed then
    if offered.differs then
      add({ "offer-open" }, text.fill("The job has been changed since the offer of {at} ({differs}): offer it again", offered), "lemel offer JOB --by WHO")
    else
      add({ "offer-open" }, text.fill("The offer of {at} is not accepted yet", offered), "lemel offer JOB --accepted --by WHO")
    end
  end
end

local function brought(offered, record, add)
  for _, p in ipairs(offers.open_pieces(offered, record)) do
    if HAND_OVER[p.wish] or p.wish == offers.stones_wish then
      add({ "receipt-open" }, text.fill(HAND_OVER[p.wish] and "{name}: once it is back with the client" or "{name}: once they are back with the client, or set again", p), command('lemel record JOB "{name} handed back"', p))
    else
      add({ "receipt-open", "metal-open" }, text.fill("{name}: its weight as brought, stones and other parts out", p), command('lemel record JOB "{name}" "MASS"', p))
    end
  end
end

local WORDS = { ["the piece"] = "The finished piece, without stones", button = "Button and sprues", filings = "Filings" }
local BOXES = { ["the piece"] = "finished" }

-- The owners of shared metal who are each charged with their own piece: one weight for all of them would not say whose it is.
local function by_pieces(job)
  local names = {}
  for _, of in pairs(job.split == "by the pieces" and job.shares or {}) do
    for owner in pairs(of) do table.insert(names, owner) end
  end
  return names
end

local function piece_of_each(names, record, add)
  for _, owner in ipairs(names) do
    add({ "metal-open", "account/too-much-lost", "account/metal-appeared" }, text.fill("{owner}: their own finished piece, without stones; the metal is shared out by the pieces", { owner = owner }),
        command('lemel record JOB "{what} finished" "{mass}" way=piece owner="{owner}" fineness=FINENESS', {
          what = owner, owner = offers.in_quotes(owner), mass = weighings.mass(record, owner .. " finished") or "MASS" }))
  end
end

local function weighed(job, open, add)
  local record, each = job.record, by_pieces(job)
  if open and ledger.in_work(record) and #each > 0 then
    piece_of_each(each, record, add)
  elseif open and ledger.in_work(record) then
    add({ "metal-open", "account/too-much-lost" }, "The piece is not made yet: once it is, its weight without stones", 'lemel record JOB finished "MASS" way=piece')
  elseif open then
    for _, e in ipairs(ledger.left_lying(record)) do
      add({ "metal-open", "account/too-much-lost" }, text.fill("{what}: brought, and nothing is recorded of it since. If it was bought or credited, it is kept; else way=sent (to the refiner), returned or here", e),
          command('lemel record JOB "{what}, kept" "{mass}" way=kept from="{what}"', { what = e.what, mass = e.mass }))
    end
  end
  for _, r in ipairs(ledger.open_rests(record)) do
    local e = r.entry
    add({ "metal-open", "account/too-much-lost" }, text.fill("{what}: about {mass} of it was not weighed out, and nothing is recorded of that. Weigh it (way=here); or, if it is no longer here, way=returned, kept or sent", { what = e.what, mass = r.mass:nearest "0.01 g" }),
        command('lemel record JOB "rest of {what}" "MASS" way=here owner="{owner}" fineness="{fineness}"' .. (e.assay and ' assay="{assay}"' or ""),
                { what = e.what, owner = offers.in_quotes(e.owner), fineness = e.fineness, assay = e.assay and offers.in_quotes(e.assay) }))
  end
  for _, m in ipairs(ledger.uncounted(record)) do
    local apart = m.what == "the piece" and #each > 0
    if apart then piece_of_each(each, record, add) end
    local words = { what = BOXES[m.what] or m.what, mass = m.mass or "MASS" }
    if not apart then
      add({ "metal-open", "account/too-much-lost", "account/metal-appeared" },
          text.fill(m.mass and "{what}: it was weighed, but is not in the metal account" or "{what}: not weighed yet", { what = WORDS[m.what] or m.what }),
          command('lemel record JOB "{what}" "{mass}" way=' .. (m.way or "here") .. (m.unboxed and " owner=OWNER fineness=FINENESS" or ""), words))
    end
  end
end

local OR = " (or, in place of that, close with studio_metal=charged or studio_metal=given)"

-- What lies here of that metal in a client's name, the heaviest first; what was taken out of it is gone. `rests`: the rests of pieces
-- that went in in part, else only what came out of the melt.
local function lying(record, metal, rests)
  local list, of = {}, {}
  for _, e in ipairs(record) do
    if e.way == "here" and e.fineness.metal == metal and e.owner ~= "studio" and e.what:starts "rest of " == rests then
      local l = { what = e.what, mass = e.mass, fineness = e.fineness }
      of[e.what] = of[e.what] or l
      table.insert(list, l)
    end
  end
  for _, e in ipairs(record) do
    local l = e.way and e.from and of[e.from]
    if l then l.mass = l.mass - e.mass end
  end
  table.sort(list, function(a, b) return a.mass > b.mass end)
  return list
end

-- Where the studio's metal is taken: out of what came of the melt, then out of what the client brought and nobody melted, as far as
-- the client is owed that much.
local TAKEN = {
  { rests = false, name = "{from}, taken back", part = "take {mass} of {from} back", all = "take all of {from} back" },
  { rests = true, name = "{from}, kept", part = "keep {mass} of {from} in its place, out of the client's own", all = "keep all of {from} in its place, out of the client's own" },
}

-- The studio takes its metal back out of what lies here, as far as that goes: never more than is its own. What the closing has to
-- say besides.
local function studio_metal(t, add)
  local job, left, step = t.job, t.left, t.scale_step
  if not left or job.studio_metal then return end
  local open, due, first = left, left:zero(), true
  for _, fine in ipairs(t.due and { t.due, table.unpack(t.others) } or t.others) do
    if fine.metal == left.metal then due = fine end
  end
  local what = text.fill("{left} of the studio's metal, added for the casting, is with the client", { left = left })
  for _, one in ipairs(TAKEN) do
    for _, l in ipairs(lying(job.record, left.metal, one.rests)) do
      local most = one.rests and min(open, due) or open
      local mass = min(l.mass, most:metal_in(l.fineness):down_to(step))
      local worth_it = not one.rests or open:metal_in(fineness(left.metal, 1)) > weighings.alike
      if mass:sign() > 0 and worth_it then
        local part = mass < l.mass
        local words = { mass = part and mass:as_house("mass", step, "down") or mass, from = l.what, what = what }
        words.part = text.fill(part and one.part or one.all, words)
        add({ "studio-metal" }, text.fill(first and "{what}: {part}" .. OR or "{what}: {part}", words), command('lemel record JOB "' .. one.name .. '" "{mass}" way=kept from="{from}"', words))
        open, due, what, first = open - l.fineness * mass, due - l.fineness * mass, "The rest of the studio's metal", false
      end
    end
  end
  if open:metal_in(fineness(left.metal, 1)) > weighings.alike then
    add({ "studio-metal" }, text.fill("{what}: charge it (studio_metal=charged) or leave it to the client (studio_metal=given) when you close", { what = what }))
    return " studio_metal=charged"
  end
end

-- How the file keeps what is done with the surplus: what is typed behind `lemel close` holds for that closing.
local function kept(surplus) return '"closing": { "given": { "surplus": "' .. surplus .. '" } }' end

-- What is left for the client is asked before it is known how much that is. `more` goes into the command besides.
local function surplus(job, due, more, add)
  if job.surplus or job.client_metal ~= "worked" or due and due:sign() <= 0 then return end
  add({ "surplus" }, "What happens to the client's metal that is left over: returned (handed back), credited (taken off this invoice) or bought (paid for separately). The command below says it for one invoice; to keep it, put into the job's file " .. kept "returned",
      "lemel close JOB" .. (more or "") .. " surplus=returned")
end

-- What an entry says besides where several lots have the name that it is taken from.
local function by_name(lot)
  return lot.shared and text.fill(' owner="{owner}" fineness="{fineness}"', { owner = offers.in_quotes(lot.owner), fineness = lot.fineness }) or ""
end

-- What of the metal here goes to the studio: a lot each, once the client has agreed to the account. What happened to the surplus may
-- have been said on the command line alone, and an entry is read with the file.
local function settle(job, to_settle, step, add)
  if #to_settle > 0 and (job.surplus == "credited" or job.surplus == "bought") then
    add({ "settle" }, "First the job's file, if it does not say it yet: " .. kept(job.surplus), nil, true)
  end
  for _, s in ipairs(to_settle) do
    for _, l in ipairs(remains.parted(job, s.owner, s.fine, step)) do
      local words = { mass = l.mass, from = l.lot.what, fine = l.fine:nearest "0.001 g", more = by_name(l.lot) }
      add({ "settle" }, text.fill(l.whole and "{from}: all of it, {fine}, goes to the studio by the account" or "{from}: {mass} of it, {fine}, goes to the studio by the account", words), command('lemel record JOB "{from}, settled" "{mass}" way=settled from="{from}"{more}', words), true)
    end
  end
end

-- What is left for the client, lot by lot: what goes to the studio is taken off.
local function hand_back(t, add)
  local job = t.job
  if job.surplus ~= "returned" or not t.due or t.due:sign() <= 0 then return end
  local group, fine = owners.group_finder(job.shares)(job.client), Q("0 g " .. job.counted)
  for _, s in ipairs(t.to_settle) do
    if s.owner == group and s.fine.metal == job.counted then fine = s.fine end
  end
  for _, l in ipairs(select(2, remains.parted(job, group, fine, t.scale_step))) do
    local words = { mass = l.mass, from = l.lot.what, more = by_name(l.lot) }
    add({ "hand-back" }, text.fill("{from}: when it is handed back", words), command('lemel record JOB "{from}, handed back" "{mass}" way=returned from="{from}"{more}', words), true)
  end
end

-- `t`: offered, job (as the closing reads it), due, others (what is owed of other metals), left, to_settle, scale_step, open (why it
-- cannot be said what is owed), and old_prices: the metals whose price is too old.
local function steps(t)
  local list = {}
  local function add(codes, what, how, after) table.insert(list, { what = what, how = how, codes = codes, after = after }) end
  accepted(t.offered, add)
  brought(t.offered, t.job.record, add)
  weighed(t.job, t.open, add)
  local more = studio_metal(t, add)
  for _, old in ipairs(t.old_prices) do
    add({ "old-price" }, text.fill("The price of {metal} on the day of the invoice: the last one is of {at}", old), command('lemel price {metal} PRICE --from WHO --at now', old))
  end
  surplus(t.job, t.due, more, add)
  settle(t.job, t.to_settle, t.scale_step, add)
  hand_back(t, add)
  return list
end

return { steps = steps }
