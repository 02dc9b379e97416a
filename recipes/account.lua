-- Where every gram of fine metal went, by owner: what was brought and added is in the piece, returned, kept by agreement,
-- still here, or lost. The loss is the difference of the weighings. What a client reads can be added up on a pocket
-- calculator.

local flows     = require "flows"
local ledger    = require "ledger"
local owners    = require "owners"
local remains   = require "remains"
local metal_prices = require "metal_prices"
local weighings = require "weighings"
local scrap     = require "scrap"
local settling  = require "settling"
local statement = require "statement"
local steps = require "steps"

local LOSS = "common practice, no source"
local DUST_LOW, DUST_HIGH = 0.5, 0.8 -- of what is lost, usually found in the dust: common practice, no source
local FINEST = "0.0001 g" -- the studio's own figures; a client's lines are coarser

-- ---- lots for the refiner -------------------------------------------------------------------------------------

local function refiner_lots(job, house, page)
  local lots, cells = {}, {}
  local listed, terms = member(metal_prices.on(house.prices or {}, job.date), job.counted), house.refiner
  local price = listed and listed.price
  for _, jar in ipairs(job.jars) do
    local fine, spread = scrap.expect(jar)
    local lot = { name = jar.name, owner = jar.owner, expected = fine:down_to "0.01 g", spread = spread:up_to "0.01 g" }
    if price then
      lot.worth = (price * fine):rounded "half up"
    end
    if price and terms then
      lot.fee_share = (terms.fee / (price * fine) * Q "100 %"):nearest "0.1 %"
      lot.send = lot.fee_share <= house.send_below
    end
    table.insert(lots, lot)
    table.insert(cells, { jar.name, jar.owner, jar.mass, lot.expected, lot.spread,
                          lot.send == nil and "no price" or lot.send and "send" or "hold" })
  end
  if #cells > 0 then
    page:heading "For the refiner"
    page:grid { columns = { "Jar", "Owner", "Mass", "Fine expected", "±", "" }, rows = cells }
    page:text "Weigh, sample and photograph before it is sent; compare with the settlement."
  end
  local least
  if price and terms then
    least = Q(text.fill("1 g {counted}", job)) * (scrap.least_lot(terms.fee, house.send_below, price):number "g")
    least = least:up_to "0.1 g"
  end
  return lots, least
end

-- ---- what the figures mean ------------------------------------------------------------------------------------

local function judge_total(a, metal, job, house, sheet)
  local code, due = settling.named(metal, job)
  local words = { loss = a.loss:nearest "0.001 g", expected = a.expected:nearest "0.001 g", doubt = a.doubt:up_to "0.001 g" }
  if a.brought:number "g" < house.least_fine:number "g" then
    sheet:note(code "too-little", text.fill("Less than {least} was handled: the weighings are too coarse to judge the loss", { least = house.least_fine }))
    return "too little to tell"
  end
  local verdict, missing = ledger.verdict(a), ledger.missing(job.record)
  local first = missing and text.fill(missing:find ", " and "The account has no entry of {missing}; record these first, each with its way, fineness and owner. "
                           or "The account has no entry of {missing}; record it first, with its way, fineness and owner. ", { missing = missing }) or ""
  if verdict == "too much lost" then
    local lying = {}
    for i, e in ipairs(ledger.left_lying(job.record)) do lying[i] = text.fill("{what} ({mass})", e) end
    words.lying = #lying > 0 and text.fill(". Nothing is recorded of {names} since it was brought: if it was not melted, record where it is, with from and way=kept (bought or credited), sent, returned or here", {
      names = table.concat(lying, ", ") }) or ""
    sheet:confirm(code "too-much-lost", first .. text.fill("{loss} is lost but {expected} is usual; "
                  .. "weighings and assays explain a difference of at most {doubt}{lying}", words), due)
  elseif verdict == "metal has appeared" then
    sheet:confirm(code "metal-appeared", first .. text.fill("The loss is {loss}, so metal has been gained, and weighings and assays explain "
                  .. "at most {doubt}: someone else's metal, the wrong jar, or investment in the button", words), due)
  elseif verdict == "less lost than usual" then
    sheet:note(code "less-lost", text.fill("{loss} is lost but {expected} is usual: check whether a jar holds someone else's metal", words))
  end
  return verdict
end

-- Where the whole closes and an owner's account does not: with metal that has appeared under another name, it went from one
-- owner to the other; without, it is lost from that owner's metal, or entered under a name whose own loss it makes good.
local function judge_owners(account, metal, job, sheet)
  local code, due = settling.named(metal, job)
  local own, appeared = {}, false
  for i, group in ipairs(account.order) do
    own[i] = ledger.verdict(account.of[group])
    appeared = appeared or own[i] == "metal has appeared"
  end
  for i, group in ipairs(account.order) do
    local a = account.of[group]
    local words = { group = group, brought = a.brought:nearest "0.001 g", out = a.out:nearest "0.001 g", doubt = a.doubt:up_to "0.001 g",
                    loss = a.loss:nearest "0.001 g", expected = a.expected:nearest "0.001 g" }
    local nothing_brought = a.brought:is_zero() and not a.out:is_zero()
    local apart = account.verdict == "within" and #account.order > 1 and (own[i] == "too much lost" or own[i] == "metal has appeared")
    if nothing_brought or apart and appeared then
      sheet:stop(code "owner-mismatch", text.fill("The account of {group} does not balance: {brought} went in but {out} came out, and {doubt} "
                 .. "is the most that weighings and assays explain. Metal of one owner is entered under another's name", words), { "owners", table.unpack(due) })
    elseif apart then
      sheet:confirm(code("owner-lost-" .. i), text.fill("{group}: {loss} is lost but {expected} is usual; weighings and assays explain a difference of at most {doubt}. "
                    .. "Was all of it weighed, or is some entered under another owner's name?", words), { "owners", table.unpack(due) })
    end
  end
end

-- ---- one metal ------------------------------------------------------------------------------------------------

-- The account of one metal: its sums, those of each owner `of` whom there are rows, and whom they are owed.
local function account_of(job, record, metal, spreads)
  local rows = ledger.rows(record, metal, owners.group_finder(job.shares))
  local groups, order = owners.by_group(rows)
  local account = { all = ledger.account(rows, metal, spreads.usual, spreads), groups = groups, order = order, of = {}, clients = {} }
  for _, group in ipairs(order) do
    account.of[group] = ledger.account(groups[group], metal, spreads.usual, spreads)
    if group ~= "studio" then table.insert(account.clients, group) end   -- it owes itself nothing
  end
  return account
end

local function print_owners(job, house, account, metal, page)
  local zero = account.all.loss:zero()
  for _, group in ipairs(account.order) do
    local again = account.of[group].melted:is_zero() and "" or ", of what was melted again"
    local usual = text.fill("{melt} of what went in{again} and {polish} of the piece", { melt = house.melt_fine_loss, again = again, polish = house.polish_loss })
    local heading = metal == job.counted and group or group .. ", " .. metal
    statement.print(page, heading, account.groups[group], group, account.of[group], zero, job.complete, steps.of(house.statement_step), house.scale_step, usual)
  end
end

-- What is owed, as the give has it; printed with the way to each. A way that does not lead to what is owed is a stop: no rounding
-- explains it, and gold would be handed back twice, or not at all.
local function print_due(list, metal, job, house, sheet, title)
  local due, page, step = {}, sheet.metal, steps.of(house.statement_step)
  local code, withheld_due = settling.named(metal, job)
  local function print_way(words, d, way)
    local off, over = statement.print_way(page, words, way, d.due, step), d.over or d.due:zero()
    if statement.is_too_much(max(abs(off) - over, over:zero()), #way + (d.parts or 1), (type(step) == "string" and Q(step) or step) * fineness(metal, 1)) then
      sheet:stop(code "does-not-add-up", text.fill("{owner}: {due} would be owed, but the lines of that account come to {off} {which}. No rounding explains that: check whose name each entry of the record has", {
        owner = d.owner, due = d.due, off = abs(off), which = off:sign() > 0 and "less" or "more" }), withheld_due)
    end
  end
  if #list > 0 then page:heading(title) end
  for _, d in ipairs(list) do
    if d.way then print_way("Owed to " .. d.owner, d, d.way) end
    if d.lies then
      print_way("Owed to " .. d.owner .. (d.together and not d.way and "" or ", as above"), d, d.lies)
      if d.worked then   -- of what nobody worked, nothing is agreed away
        page:text "What was agreed holds. More found, or less lost, than agreed belongs to the studio; less found, or more lost, is borne by the studio."
      end
    end
    if not d.together then table.insert(due, { owner = d.owner, due = d.due, over = d.over }) end
  end
  return due
end

-- What of the studio's metal each owner is left with, said under what is owed: it is in it.
local function print_left(list, house, page)
  local left = {}
  for _, l in ipairs(list) do
    table.insert(left, { owner = l.owner, fine = l.fine:nearest(steps.of(house.statement_step)) })
    page:text(text.fill("{fine} of the studio's metal is with {owner}, in the piece or in what is owed: added for the casting, and neither taken back nor paid for.", left[#left]))
  end
  return left
end

-- What of the metal here goes to the studio, and is not entered as settled yet.
local function print_settle(list, page)
  for _, s in ipairs(list) do
    page:text(text.fill("{owner}: of what is here, {fine} goes to the studio by these figures.", { owner = s.owner, fine = s.fine:nearest "0.001 g" }), { of = "to_settle" })
  end
end

-- ---- the steps of the account ---------------------------------------------------------------------------------

-- The job with its record as it counts.
local function with_counted(asked)
  local job = {}
  for name, value in pairs(asked) do job[name] = value end
  job.record = weighings.counted(asked.record)
  return job
end

-- Whether shares or entries are at odds with themselves: then nothing is added up.
local function is_faulty(job, sheet)
  local faulty = false
  for _, fault in ipairs(owners.share_faults(job.shares)) do
    sheet:stop("shares-sum", fault)
    faulty = true
  end
  for _, list in ipairs { ledger.faults(job.record), remains.faults(job) } do
    for _, fault in ipairs(list) do
      sheet:stop(fault.code, fault.text)
      faulty = true
    end
  end
  return faulty
end

-- Metal that was kept although it was agreed that it goes to somebody else.
local function check_kept(job, sheet)
  local broken, to = settling.against_agreement(job)
  if broken then
    sheet:confirm("kept-against", text.fill("The {what} of {at} is entered as kept, but it was agreed that it goes to {to}: enter it as returned, or as here, or write what was agreed since", {
      what = broken.what, at = broken.at, to = to }), { "due", "other_due", "to_settle" })
  end
end

-- The accounts of all metals, each printed owner by owner.
local function open_accounts(metals, record, job, house, spreads, page)
  local accounts, kept, settled = {}, false, false
  for _, metal in ipairs(metals) do
    local account = account_of(job, record, metal, spreads)
    accounts[metal] = account
    flows.of_account(page, account, metal, steps.of(house.statement_step), job.complete)
    print_owners(job, house, account, metal, page)
    kept, settled = kept or not account.all.kept:is_zero(), settled or not account.all.settled:is_zero()
  end
  -- Metal held for somebody is different from metal bought from them.
  if kept then
    page:text("Metal kept by agreement is the studio's: its own metal taken back, or metal bought, credited or left to it. The rest "
              .. "is held for its owner, up to what is owed below.")
  end
  if settled then page:text("Metal gone to the studio was left over from the work: by the figures below it belongs to the studio, or the studio credited or bought it.") end
  return accounts
end

-- The sums of each owner. What is lost is known only when everything was weighed.
local function owner_rows(account, complete)
  local rows = {}
  for _, group in ipairs(account.order) do
    local a = account.of[group]
    table.insert(rows, { owner = group, opening = a["in"], added = a.added, piece = a.piece, returned = a.returned,
                         kept = a.kept, here = a.here, settled = not a.settled:is_zero() and a.settled or nil, sent = not a.sent:is_zero() and a.sent or nil, loss = complete and a.loss or nil })
  end
  return rows
end

-- What is lost of the metal that is counted, and what of that is likely in the dust.
local function write_loss(main, results, step, sheet)
  local all, back = main.all, sheet.cost
  results.loss, results.expected = all.loss:nearest(FINEST), all.expected:nearest(FINEST)
  results.excess, results.doubt = all.excess:nearest(FINEST), all.doubt:up_to(FINEST)
  results.loss_share = (all.loss / all.brought):as "%":nearest "0.01 %"
  results.recoverable_low  = (all.loss * DUST_LOW):nearest(FINEST)
  results.recoverable_high = (all.loss * DUST_HIGH):nearest(FINEST)
  results.verdict = main.verdict
  local brought, loss = all.brought:nearest(step), all.loss:nearest(step)
  back:line("Fine metal in", brought, { of = "brought" })
  back:line("Accounted for", (brought - loss):nearest(step))   -- so that what is printed adds up
  back:line("Usual", all.expected:nearest(step), { of = "expected" })
  back:line("Uncertainty of weighings and assays", all.doubt:up_to(step), { of = "doubt" })
  sheet.bench:line("Lost, from the weighings", loss, { of = "loss" })
  sheet.bench:line("The loss, against the usual", results.verdict, { big = true, of = "verdict" })
  sheet:note("jars", "Weigh the jars too: 50 to 80 % of the loss is usually in the dust")
end

-- Who signs: the client, or each owner by name where there are several.
local function signers(clients, shares)
  local names = {}
  for _, group in ipairs(clients) do
    local members = owners.members_of(shares, group)
    for member in pairs(members or {}) do table.insert(names, member) end
    if not members then table.insert(names, group) end
  end
  if #names == 1 then names = { "Client" } end
  table.insert(names, "Studio")
  table.insert(names, "Date")
  return names
end

-- What is owed to each owner, of the metal that is counted and of the others; and what of it goes to the studio. Before everything
-- is weighed it can be said only where a working loss was agreed.
local function settle_all(metals, accounts, job, house, spreads, sheet)
  if not (job.complete or house.working_loss) then return {} end
  local page, due, others, left, to_settle = sheet.metal, {}, {}, {}, {}
  local clients, known = {}, {}
  for _, metal in ipairs(metals) do
    local counted = metal == job.counted
    local owed, ours = settling.settle(job, house, accounts[metal], metal, spreads, sheet)
    for _, group in ipairs(accounts[metal].clients) do
      if not known[group] then table.insert(clients, group) end
      known[group] = true
    end
    for _, d in ipairs(print_due(owed, metal, job, house, sheet, counted and "Fine metal owed back" or "Fine metal owed back: " .. metal)) do
      table.insert(counted and due or others, d)
    end
    ours = print_left(ours, house, page)
    if counted then left = ours end
    if job.closes then
      local open = remains.to_settle(job, accounts[metal], owed, metal, house.scale_step, sheet)
      print_settle(open, page)
      for _, s in ipairs(open) do table.insert(to_settle, s) end
    end
  end
  if #due + #others > 0 then
    local names = signers(clients, job.shares)
    page:sign(#names > 3 and "Figures agreed by all" or "Figures agreed by both", names)
  end
  return { due = due, other_due = others, left_with = left, to_settle = to_settle }
end

-- ---- what is asked --------------------------------------------------------------------------------------------

local jar = ask.record { "A jar", apart = "name", fields = {
  name = ask.text { "Label" }, kind = ask.choice { "What is in it", options = scrap.kinds },
  mass = ask.mass { "Contents", from = "0.01 g" }, fineness = ask.fineness { "Fineness of its metal" },
  metal_share = ask.ratio { "Share of metal in it, if tested", from = "0 %", to = "100 %", optional = true },
  owner = ask.owner { "Whose it is" },
} }

return recipe {
  heads   = "Metal account",
  title   = "The metal account",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 2,
  uses    = { "rule_button", "rule_lemel" },
  about   = "Uses the entries of the job's record that have a way. in: brought by its owner; added: the studio's, from now on "
         .. "the owner's; piece; returned; kept by agreement; settled: gone to the studio with the closing; sent to the refiner; here: still here; melted: gone back into the crucible for the same job. An entry without a way is only a measurement.",

  asks = {
    { "The account",
      date     = ask.moment  { "Date of the account", optional = true },
      counted  = ask.choice  { "The metal that is counted", options = { "Au", "Ag", "Pt", "Pd" }, default = "Au", source = "the studio works in gold" },
      complete = ask.yes_no  { "Everything left over has been weighed", default = true, source = "an account is drawn up when the job is done" },
      agreed = ask.list { "The same as an offer has it: owners may have several metals", default = {}, source = "otherwise from the record", seldom = true, of = ask.record { "Of an owner", fields = {
        owner = ask.owner { "Owner" }, fine = ask.fine_mass { "Fine metal" } } } },
      opening_agreed = ask.by_name { "Opening balance agreed by both sides, by owner", default = {}, source = "otherwise from the record",
                               of = ask.fine_mass { "Fine metal" } },
    },
    { "The record",
      record   = ask.list    { "What was weighed", default = {}, source = "a job starts with an empty record", of = weighings.entry },
      jars     = ask.list    { "Jars for the refiner", default = {}, source = "not every job fills one", of = jar },
    },
    { "Who owns what",
      shares   = ask.by_name { "Lots with several owners: the share of each", default = {}, source = "most lots have one owner",
                               of = ask.by_name { "Shares by owner", of = ask.ratio { "A share", from = "0 %", to = "100 %" } } },
      split    = ask.choice  { "What applies when shares and pieces disagree", options = { "by the pieces", "by the share" }, optional = true },
      button_to = ask.owner  { "Who keeps button and sprues, as agreed", optional = true, note = "if the studio: what is entered as here counts as kept by agreement" },
      lemel_to = ask.owner   { "Who keeps the filings, as agreed", optional = true },
      surplus_of = ask.by_name { "What happens to surplus metal, by owner", of = ask.choice { "What", options = { "returned", "credited", "bought" } }, default = {}, source = "it stays its owner's", seldom = true,
        note = "credited or bought, what lies here of it goes to the studio" },
      closes   = ask.yes_no  { "Whether it says what goes to the studio", default = true, source = "the account of a job's closing does", seldom = true },
      paid_for = ask.by_name { "Metal added by the studio that was charged in the quote, by owner", default = {}, source = "none", of = ask.fine_mass { "Fine metal" } },
    },
  },
  allowances = {
    melt_fine_loss = ask.ratio { "Usual melting loss, of the fine metal that went in", default = "0.3 %", source = LOSS },
    polish_loss    = ask.ratio { "Usual finishing loss, of the fine metal in the piece", default = "1 %", source = LOSS },
    working_loss   = ask.ratio { "Working loss agreed with the client, of the fine metal in the piece", optional = true, example = "8 %" },
    weighing       = ask.mass  { "One standard deviation of a net weighing", default = "0.02 g", source = "a 0.01 g scale, gross and tare, with drift: " .. LOSS },
    assay_spread   = ask.ratio { "One standard deviation of a fineness given without ±", from = "0 ‰", to = "50 ‰",
                                 default = "1 ‰", source = LOSS },
    scale_step     = ask.mass  { "Scale division", from = "0.0001 g", to = "1 g", example = "0.01 g", default = "0.01 g", source = LOSS },
    least_fine     = ask.mass  { "Least fine metal for a verdict", default = "3 g", source = LOSS },
    statement_step = ask.mass  { "Rounding of the lines of the statement", default = "0.001 g", source = "what a pocket calculator shows" },
    share_step     = ask.mass  { "Shares and pieces agree if they differ by less", default = "0.01 g", source = LOSS },
    prices         = metal_prices.prices(true),
    refiner        = ask.record { "The refiner's terms", optional = true, fields = {
      yield = ask.ratio { "Yield of the refiner's melt", example = "98 %" },
      payable = ask.ratio { "Share paid of the assayed content", example = "95 %" },
      fee = ask.money { "Charge per lot" } } },
    send_below     = ask.ratio { "Send a lot when the fee is at most this share of its value", default = "4 %", source = "3 to 5 %: " .. LOSS },
  },
  gives = {
    brought          = give.fine_mass "Fine metal that went in",
    out              = give.fine_mass "Fine metal accounted for",
    loss             = give.fine_mass { "Lost in working, from the weighings", optional = true },
    loss_share       = give.ratio     { "Loss as a share of what went in", optional = true },
    expected         = give.fine_mass { "Usual loss", optional = true },
    excess           = give.fine_mass { "Loss above the usual", optional = true },
    doubt            = give.fine_mass { "Uncertainty of weighings and assays", optional = true },
    verdict          = give.text      "Verdict on the loss",
    recoverable_low  = give.fine_mass { "Likely in the dust, at least", optional = true },
    recoverable_high = give.fine_mass { "Likely in the dust, at most", optional = true },
    owners           = give.list { "The account of each owner", of = give.record { "An owner", fields = {
      owner = give.owner "Owner", opening = give.fine_mass "Brought", added = give.fine_mass "Added by the studio",
      piece = give.fine_mass "In the piece", returned = give.fine_mass "Returned", kept = give.fine_mass "Kept by agreement",
      settled = give.fine_mass { "Settled", optional = true }, here = give.fine_mass "Still here", sent = give.fine_mass { "At the refiner's", optional = true }, loss = give.fine_mass { "Lost", optional = true } } } },
    due              = give.list { "Metal owed back", of = give.record { "To an owner", fields = {
      owner = give.owner "Owner", due = give.fine_mass "Fine metal", over = give.fine_mass { "Handed back above that, by the step of the scale", optional = true } } } },
    other_due        = give.list { "Other metals owed back", of = give.record { "To an owner", fields = {
      owner = give.owner "Owner", due = give.fine_mass "Fine metal", over = give.fine_mass { "Handed back above that, by the step of the scale", optional = true } } } },
    left_with        = give.list { "The studio's metal that an owner is left with: added, and neither kept nor paid for", of = give.record { "With an owner", fields = {
      owner = give.owner "Owner", fine = give.fine_mass "Fine metal" } } },
    to_settle        = give.list { "Metal that is here and goes to the studio by the account, not entered as settled yet", of = give.record { "Of an owner", fields = {
      owner = give.owner "Owner", fine = give.fine_mass "Fine metal" } } },
    lots             = give.list { "Lots for the refiner", of = give.record { "A lot", fields = {
      name = give.text "Jar", owner = give.owner "Owner", expected = give.fine_mass "Fine metal to expect",
      spread = give.fine_mass "Uncertainty", worth = give.money { "Worth at today's price", optional = true },
      fee_share = give.ratio { "The fee as a share of its value", optional = true }, send = give.yes_no { "Worth sending", optional = true } } } },
    least_lot        = give.fine_mass { "Smallest lot worth sending", optional = true },
  },

  work = function (asked, house, sheet)
    local job = with_counted(asked)
    if is_faulty(job, sheet) then return {} end
    local spreads = { weighing = house.weighing, assay = house.assay_spread,
                      usual = { melt = house.melt_fine_loss, polish = house.polish_loss } }
    local record = settling.of_the_job(job)
    check_kept(job, sheet)
    local metals = ledger.metals(record, job.counted)
    local accounts = open_accounts(metals, record, job, house, spreads, sheet.metal)
    local main = accounts[job.counted]
    local results = { brought = main.all.brought:nearest(FINEST), out = main.all.out:nearest(FINEST),
                      owners = owner_rows(main, job.complete), verdict = "open" }
    for _, metal in ipairs(metals) do
      local account = accounts[metal]
      if job.complete and not account.all.brought:is_zero() then
        account.verdict = judge_total(account.all, metal, job, house, sheet)
        judge_owners(account, metal, job, sheet)
      end
    end
    if main.verdict then write_loss(main, results, steps.of(house.statement_step), sheet) end
    settling.check_agreed(job, accounts, spreads, sheet)
    local settled = settle_all(metals, accounts, job, house, spreads, sheet)
    for _, name in ipairs { "due", "other_due", "left_with", "to_settle" } do results[name] = settled[name] or {} end
    results.lots, results.least_lot = refiner_lots(job, house, sheet.bench)
    return results
  end,

  proofs = function()
  -- 20 g that were cast, with so much of the button, the casting and 1 g more melted again.
  local function twice_melted(of_button, from)
    local function entry(at, what, mass, way, from)
      return { at = at, what = what, mass = mass, fineness = "1000 ‰", owner = "client", way = way, from = from }
    end
    return { record = {
      entry("2026-11-20T10:00", "bar", "20 g", "in"), { at = "2026-11-21T14:00", what = "poured" }, entry("2026-11-21T15:00", "raw casting", "7.9 g"),
      entry("2026-11-21T15:05", "button", "12 g", "here"), entry("2026-11-22T09:00", "weighed button", of_button, "melted", from or "button"),
      entry("2026-11-22T09:01", "weighed casting", "7.9 g", "melted", "raw casting"), entry("2026-11-22T09:02", "weighed grain", "1 g", "added"),
      { at = "2026-11-22T14:00", what = "poured" }, entry("2026-11-22T15:00", "button", "11 g", "here"), entry("2026-11-22T15:05", "finished", "9.5 g", "piece"),
      entry("2026-11-22T15:10", "filings", "0.2 g", "here") } }
  end
  local function ring(fineness_out, assay)
    local function out(what, mass, way)
      return { at = "2026-11-22T16:00", what = what, mass = mass, fineness = fineness_out, assay = assay, owner = "client", way = way }
    end
    return {
      { at = "2026-11-20T10:00", what = "old ring", mass = "22.40 g", fineness = "581 ‰ ± 2 ‰", owner = "client", way = "in" },
      { at = "2026-11-20T10:05", what = "fine gold", mass = "15.46 g", fineness = "999.9 ‰ ± 0.1 ‰", owner = "client", way = "added" },
      out("ring", "10.84 g", "piece"), out("tree", "25.10 g", "here"), out("offcuts", "0.62 g", "here"),
      { at = "2026-11-22T16:10", what = "filings", mass = "0.94 g", fineness = "735 ‰ ± 5 ‰", owner = "client", way = "here" },
    }
  end
  local function wardens(split)
    local function out(owner, mass)
      return { at = "2026-11-28T17:00", what = "ring", mass = mass, fineness = "753 ‰", owner = owner, way = "piece" }
    end
    return { complete = false, working_loss = "8 %", split = split, opening_agreed = { ["the wardens"] = "28.4740 g Au" },
      shares = { ["the wardens"] = { Osk = "50 %", Tamehill = "30 %", Ariwake = "20 %" } },
      record = { { at = "2026-11-24T09:00", what = "bangle", mass = "31.92 g", fineness = "897 ‰ ± 3 ‰", owner = "the wardens", way = "in" },
                 out("Osk", "16.02 g"), out("Tamehill", "7.7596 g"), out("Ariwake", "5.208 g") } }
  end
  -- 20 g of fine gold, half of it in the ring and 8 g in the button, which goes to somebody by agreement.
  local function agreed_button(to, way, added)
    local given = { complete = false, working_loss = "10 %", button_to = to, record = {
      { at = "2026-11-24T10:00", what = "bar", mass = "20 g", fineness = "1000 ‰", owner = "client", way = "in" },
      { at = "2026-11-26T10:00", what = "ring", mass = "10 g", fineness = "1000 ‰", owner = "client", way = "piece" },
      { at = "2026-11-26T10:05", what = "button", mass = "8 g", fineness = "1000 ‰", owner = "client", way = way or "here" } } }
    if added then   -- and 5 g of the studio's in the melt, of which so much was paid for
      table.insert(given.record, 2, { at = "2026-11-24T10:05", what = "weighed fine gold", mass = "5 g", fineness = "1000 ‰", owner = "client", way = "added" })
      given.paid_for = added.paid and { client = added.paid } or nil
    end
    return given
  end

  -- The same button, or what goes on from elsewhere, once more: `more` of an entry that says what it is taken from.
  local function taken(more, proof)
    local given, entry = agreed_button(nil), { at = "2026-11-27T10:00", what = "handed over", mass = "8 g", fineness = "1000 ‰", owner = "client",
                                               way = "returned", from = "button" }
    for name, value in pairs(more) do entry[name] = value end
    table.insert(given.record, entry)
    given.date = proof.date
    proof.given, proof.date = given, nil
    return proof
  end

  -- The same button of 8 g, weighed again as 5 g with that way.
  local function corrected(way, proof)
    proof.given = agreed_button(nil, "kept")
    table.insert(proof.given.record, { at = "2026-11-26T10:09", what = "button", mass = "5 g", fineness = "1000 ‰", owner = "client", way = way, corrects = "2026-11-26T10:05" })
    proof.within = "0.0005 g Au"
    return proof
  end

  -- 20 g of fine gold: a ring of so many grams, the filings and the button that are left, and 8 % of the ring agreed as lost. What
  -- is settled is taken out of the filings.
  local function left_over(ring, filings, button, proof)
    local function entry(what, mass, way) return { at = "2026-11-26T10:00", what = what, mass = mass, fineness = "1000 ‰", owner = "client", way = way } end
    proof.given = { working_loss = "8 %", surplus_of = proof.surplus and { client = proof.surplus }, date = proof.date, record = {
      entry("bar", "20 g", "in"), entry("ring", ring, "piece"), entry("filings", filings, "here"), entry("button", button, "here") } }
    if proof.settled then
      local settled = entry("filings, settled", "0 g", "settled")
      settled.at, settled.from = "2026-11-27T10:00", "filings"
      for name, value in pairs(proof.settled) do settled[name] = value or nil end
      table.insert(proof.given.record, settled)
    end
    proof.settled, proof.surplus, proof.date, proof.within = nil, nil, nil, "0.0005 g Au"
    return proof
  end
  local function owed_and_open(owed, open)
    return { due = { { due = Q(owed) } }, to_settle = open and { { owner = "client", fine = Q(open) } } or {} }
  end

  -- Two clients, each with a bar of 20 g of fine gold, a ring of 10 g and 9.9 g in a lot called button; `more` of the job, and entries.
  local function two_buttons(more, ...)
    local given = { working_loss = "8 %", record = {} }
    for _, way in ipairs { "in", "piece", "here" } do
      for _, owner in ipairs { "Ada", "Ben" } do
        table.insert(given.record, { at = "2026-11-26T10:00", what = way == "here" and "button" or way .. " of " .. owner, fineness = "1000 ‰", owner = owner, way = way,
          mass = way == "in" and "20 g" or way == "piece" and "10 g" or "9.9 g" })
      end
    end
    for name, value in pairs(more) do given[name] = value end
    for _, e in ipairs { ... } do table.insert(given.record, e) end
    return given
  end
  local BEN_SETTLES = { at = "2026-11-27T10:00", what = "button, settled", mass = "0.7 g", fineness = "1000 ‰", owner = "Ben", way = "settled", from = "button" }
  -- A bar of two, whose rings take 6 g and 11 g of the 20 g.
  local function uneven_pair()
    local function entry(what, mass, owner, way) return { at = "2026-11-26T10:00", what = what, mass = mass, fineness = "1000 ‰", owner = owner, way = way } end
    return { working_loss = "8 %", split = "by the pieces", shares = { pair = { Ada = "50 %", Ben = "50 %" } }, record = {
      entry("bar", "20 g", "pair", "in"), entry("ring", "6 g", "Ada", "piece"), entry("ring", "11 g", "Ben", "piece"), entry("button", "2.9 g", "pair", "here") } }
  end

  -- A bar of two, whose rings leave Ada 2 g and Ben 0.4 g in a button, of which so much is handed over.
  local function handed_to(owner, mass, split, way)
    local function entry(what, mass, owner, way, from) return { at = "2026-11-26T10:00", what = what, mass = mass, fineness = "1000 ‰", owner = owner, way = way, from = from } end
    return { working_loss = "0 %", split = split or "by the pieces", shares = { pair = { Ada = "50 %", Ben = "50 %" } }, record = {
      entry("bar", "20 g", "pair", "in"), entry("ring", "8 g", "Ada", "piece"), entry("ring", "9.6 g", "Ben", "piece"), entry("button", "2.4 g", "pair", "here"),
      entry("button, handed back", mass, owner, way or "returned", "button") } }
  end
  -- A bar of two, whose rings of 9.6 g and 8 g were weighed in one and entered for both: 2.4 g are left.
  local function in_one(split, bens)
    local function entry(what, mass, owner, way) return { at = "2026-11-26T10:00", what = what, mass = mass, fineness = "1000 ‰", owner = owner, way = way } end
    return { working_loss = "0 %", split = split, shares = { pair = { Ada = "75 %", Ben = "25 %" } }, record = {
      entry("bar", "20 g", "pair", "in"), entry("finished", bens and "9.6 g" or "17.6 g", "pair", "piece"), bens and entry("ring", "8 g", "Ben", "piece") or entry("tray", "0 g", "studio", "here"), entry("button", "2.4 g", "pair", "here") } }
  end
  local function added_to_both()
    local function entry(what, mass, owner, way) return { at = "2026-11-26T10:00", what = what, mass = mass, fineness = "1000 ‰", owner = owner, way = way } end
    return { working_loss = "0 %", split = "by the pieces", shares = { pair = { Ada = "50 %", Ben = "50 %" } }, paid_for = { pair = "4 g Au" }, record = {
      entry("bar", "20 g", "pair", "in"), entry("weighed grain", "4 g", "pair", "added"), entry("ring", "10 g", "Ada", "piece"), entry("ring", "13.95 g", "Ben", "piece") } }
  end
  local function handed_to_each(bens)
    local given = handed_to("Ada", "2 g")
    table.insert(given.record, { at = "2026-11-26T10:00", what = "button, Ben's", mass = bens, fineness = "1000 ‰", owner = "Ben", way = "returned", from = "button" })
    return given
  end

  -- What was agreed for 20 g at 650 ‰, of which 7 g fine are in the piece, with its working loss.
  local function agreed_to(agreed, proof, owner)
    proof.given = { complete = false, working_loss = "0 %", opening_agreed = { [owner or "client"] = agreed }, record = {
      { at = "2026-11-24T10:00", what = "two rings", mass = "20 g", fineness = "650 ‰ ± 10 ‰ Au", owner = "client", way = "in" },
      { at = "2026-11-26T10:00", what = "cuff links", mass = "10 g", fineness = "700 ‰ Au", owner = "client", way = "piece" } } }
    return proof
  end

  return {
    { "A ring, its tree, offcuts and filings: the loss is within what weighings and assays explain",
      given = { record = ring("752 ‰ ± 2 ‰", "finished") },
      expect = { brought = "28.47285 g Au", out = "28.18402 g Au", loss = "0.288834 g Au", expected = "0.1669354 g Au",
                 doubt = "0.1876986 g Au", excess = "0.1218986 g Au", recoverable_low = "0.144417 g Au",
                 recoverable_high = "0.2310672 g Au" },
      within = "0.0002 g Au", source = "worked example of our own" },
    { "The verdict of the same", given = { record = ring("752 ‰ ± 2 ‰", "finished") }, expect = { verdict = "within" }, source = "worked example of our own" },
    { "Where the fineness of the ring was only reckoned, the weighings alone must explain the loss",
      given = { record = ring("752 ‰", "calculated") }, expect = { doubt = "0.0756 g Au" }, within = "0.0002 g Au",
      stops = { "too-much-lost" }, source = "worked example of our own" },
    { "More came out than went in",
      given = { record = {
        { at = "2026-11-20T10:00", what = "old rings", mass = "14.36 g", fineness = "585 ‰ ± 2 ‰", assay = "body", owner = "client", way = "in" },
        { at = "2026-11-20T10:05", what = "grain", mass = "6.50 g", fineness = "585 ‰ ± 2 ‰", assay = "body", owner = "client", way = "added" },
        { at = "2026-11-22T16:00", what = "ring", mass = "7.92 g", fineness = "585 ‰ ± 2 ‰", assay = "body", owner = "client", way = "piece" },
        { at = "2026-11-22T16:02", what = "button and sprues", mass = "12.10 g", fineness = "585 ‰ ± 2 ‰", assay = "body", owner = "client", way = "here" },
        { at = "2026-11-22T16:04", what = "filings", mass = "1.05 g", fineness = "570 ‰ ± 5 ‰", owner = "client", way = "here" } } },
      expect = { brought = "12.2031 g Au", out = "12.3102 g Au", loss = "-0.1071 g Au", expected = "0.0829413 g Au",
                 doubt = "0.05321296 g Au", excess = "-0.1900413 g Au" },
      within = "0.0002 g Au", stops = { "metal-appeared" }, source = "worked example of our own" },
    { "What a client gets back after an agreed working loss of 8 % of the piece",
      given = { complete = false, working_loss = "8 %", opening_agreed = { client = "12.9419 g Au" }, record = {
        { at = "2026-11-24T10:00", what = "two rings", mass = "23.4948 g", fineness = "560.743 ‰ ± 6 ‰", owner = "client", way = "in" },
        { at = "2026-11-26T10:00", what = "cuff links", mass = "12.30 g", fineness = "585.9187 ‰", owner = "client", way = "piece" } } },
      expect = { due = { { owner = "client", due = Q "5.1585 g Au" } } }, within = "0.001 g Au", source = "worked example of our own" },
    { "a button that goes to the studio by agreement is not owed back", given = agreed_button "studio",
      expect = { due = { { owner = "client", due = Q "1.0 g Au" } } }, within = "0.0005 g Au", source = "20 - 10 - 8 and 10 % of 10: arithmetic" },
    { "and one that goes to the client is", given = agreed_button "client",
      expect = { due = { { owner = "client", due = Q "9.0 g Au" } } }, within = "0.0005 g Au", source = "20 - 10 and 10 % of 10: arithmetic" },
    corrected("kept", { "a button that was weighed again counts once, as it was weighed last", expect = { out = "15 g Au" }, source = "10 and 5: arithmetic" }),
    corrected("here", { "an entry of another way is not corrected", expect = { out = "23 g Au" }, source = "10, 8 and 5: arithmetic" }),
    taken({}, { "handed over later, out of what lies here: it is owed no more, and is not counted twice",
      expect = { due = { { owner = "client", due = Q "1.0 g Au" } }, out = "18 g Au" }, within = "0.0005 g Au", source = "20 - 10 - 8 and 10 % of 10: arithmetic" }),
    taken({}, { "the account of the day before does not know of it", date = "2026-11-26", expect = { due = { { owner = "client", due = Q "9.0 g Au" } } },
      within = "0.0005 g Au", source = "20 - 10 and 10 % of 10: arithmetic" }),
    taken({ from = "band: button" }, { "nor does it take what another job's button is", expect = { due = { { owner = "client", due = Q "9.0 g Au" } } },
      within = "0.0005 g Au", source = "20 - 10 and 10 % of 10: arithmetic" }),
    taken({ way = "sent", what = "parcel 7" }, { "sent to the refiner it is still the client's",
      expect = { due = { { owner = "client", due = Q "9.0 g Au" } }, out = "18 g Au" }, within = "0.0005 g Au", source = "20 - 10 and 10 % of 10: arithmetic" }),
    left_over("10 g", "1.9 g", "8 g", { "less was lost than agreed: of what is here, so much goes to the studio", expect = owed_and_open("9.2 g Au", "0.7 g Au"),
      source = "20 less 10 and 0.8; 9.9 less that" }),
    left_over("10 g", "1.9 g", "8 g", { "a part of it is settled: what is owed stays, and the rest is told", settled = { mass = "0.4 g" },
      expect = owed_and_open("9.2 g Au", "0.3 g Au"), source = "0.7 less 0.4" }),
    left_over("10 g", "1.9 g", "8 g", { "all of it is", settled = { mass = "0.7 g" }, expect = { due = { { due = Q "9.2 g Au" } }, to_settle = {}, loss = "0.1 g Au",
      owners = { { here = Q "9.2 g Au", settled = Q "0.7 g Au" } } }, source = "9.9 less 0.7" }),
    left_over("10 g", "1.9 g", "8 g", { "it was settled after the day of the account: that day it was here", settled = { mass = "0.7 g" }, date = "2026-11-26",
      expect = { due = { { due = Q "9.2 g Au" } }, to_settle = {}, owners = { { here = Q "9.9 g Au" } } }, source = "the same" }),
    left_over("10 g", "1.9 g", "8 g", { "more than goes to the studio", settled = { mass = "0.71 g" }, stops = { "settled-more" }, source = "0.71 is more than 0.7" }),
    left_over("10 g", "1.9 g", "8 g", { "the studio takes over what is left: all that is here", settled = { mass = "1.9 g" }, surplus = "bought",
      expect = owed_and_open("9.2 g Au", "8 g Au"), source = "9.9 less 1.9" }),
    left_over("19 g", "0.5 g", "0.3 g", { "the client owes gold: all that is here goes to the studio", expect = owed_and_open("-0.52 g Au", "0.8 g Au"),
      source = "20 less 19 and 1.52; 0.5 and 0.3" }),
    left_over("19 g", "0.5 g", "0.3 g", { "a part of it is settled: what is owed stays", settled = { mass = "0.5 g" }, expect = owed_and_open("-0.52 g Au", "0.3 g Au"), source = "0.8 less 0.5" }),
    left_over("19 g", "0.5 g", "0.3 g", { "more than there is of the lot", settled = { mass = "0.51 g" }, stops = { "settled-lot" }, source = "0.51 is more than 0.5" }),
    left_over("19 g", "0.5 g", "0.3 g", { "settled, and not said out of what", settled = { mass = "0.5 g", from = false }, stops = { "settled-from" }, source = "it would be here twice" }),
    left_over("19 g", "0.5 g", "0.3 g", { "out of something that nobody weighed", settled = { mass = "0.5 g", from = "sprues" }, stops = { "settled-from" }, source = "it would be here twice" }),
    left_over("19 g", "0.5 g", "0.3 g", { "out of another's", settled = { mass = "0.5 g", owner = "Perrin" }, stops = { "settled-owner" }, source = "the record says client" }),
    left_over("19 g", "0.5 g", "0.3 g", { "as another metal", settled = { mass = "0.5 g", fineness = "925 ‰ Ag" }, stops = { "settled-metal" }, source = "the filings are gold" }),
    left_over("19 g", "0.5 g", "0.3 g", { "by the studio, which owes itself nothing", settled = { mass = "0.5 g", owner = "studio" }, stops = { "settled-studio" }, source = "the studio's metal is its own" }),
    { "one client's is bought: the other's stays theirs, but for what was agreed as lost", given = two_buttons { surplus_of = { Ada = "bought" } },
      expect = { to_settle = { { owner = "Ada", fine = Q "9.9 g Au" }, { owner = "Ben", fine = Q "0.7 g Au" } } }, source = "all of 9.9; 9.9 less 10 less 0.8" },
    { "two lots of one name: the owner says which", given = two_buttons({}, BEN_SETTLES), expect = { to_settle = { { owner = "Ada", fine = Q "0.7 g Au" } } },
      source = "9.9 less 10 less 0.8, of which Ben's is settled" },
    { "what one owner of a lot owes is not taken from the other", given = uneven_pair(), expect = { to_settle = {},
      due = { { owner = "Ada", due = Q "3.52 g Au" }, { owner = "Ben", due = Q "-1.88 g Au" } } }, source = "10 less 6.48, 10 less 11.88; 2.9 is less than 3.52" },
    { "more of a lot of two handed to one of them than there is left of it", given = handed_to_each("0.5 g"), stops = { "taken-lot" }, source = "2 and 0.5 of 2.4" },
    { "what is handed to one owner of a lot is gone from it", given = handed_to_each("0.4 g"), expect = { to_settle = {}, due = { { owner = "Ada", due = Q "0 g Au" }, { owner = "Ben", due = Q "0 g Au" } } }, source = "10 less 8 and 2, 10 less 9.6 and 0.4: arithmetic" },
    { "handed to both together: it is taken off what each is owed, in proportion", given = handed_to("pair", "1.2 g"), expect = { due = { { owner = "Ada", due = Q "1 g Au" }, { owner = "Ben", due = Q "0.2 g Au" } } }, source = "2 and 0.4, of which a half was handed over" },
    { "all of it", given = handed_to("pair", "2.4 g"), expect = { due = { { owner = "Ada", due = Q "0 g Au" }, { owner = "Ben", due = Q "0 g Au" } } }, source = "2 and 0.4 are 2.4" },
    { "bought of both together: the same", given = handed_to("pair", "2.4 g", "by the pieces", "kept"), expect = { due = { { owner = "Ada", due = Q "0 g Au" }, { owner = "Ben", due = Q "0 g Au" } } }, source = "2 and 0.4 are 2.4" },
    { "added for both, and in the ring of one: it is not owed again", given = added_to_both(), expect = { due = { { owner = "Ada", due = Q "0 g Au" }, { owner = "Ben", due = Q "0.05 g Au" } } }, source = "20 and 4 are 10 and 13.95, and 0.05 left" },
    { "handed to one, where the rest is shared out: it comes off that one's share", given = handed_to("Ada", "1 g", "by the share"), expect = { due = { { owner = "Ada", due = Q "0.2 g Au" }, { owner = "Ben", due = Q "1.2 g Au" } } }, source = "the half of 2.4 each, less 1" },
    { "the rings of both entered in one: what is left is shared out, and the gold in the rings is not owed again", given = in_one(),
      expect = { due = { { owner = "Ada", due = Q "1.8 g Au" }, { owner = "Ben", due = Q "0.6 g Au" } } }, source = "20 less 17.6, in parts of 75 and 25 %: arithmetic" },
    { "the same, as it was agreed", given = in_one "by the share", expect = { due = { { owner = "Ada", due = Q "1.8 g Au" }, { owner = "Ben", due = Q "0.6 g Au" } } }, source = "the same" },
    { "by the pieces nobody knows whose they are", given = in_one "by the pieces", stops = { "piece-together" }, source = "the record says pair" },
    { "one ring is entered for both, and one for its owner", given = in_one(nil, true), stops = { "piece-together" }, source = "whose the first is matters: 15 less 9.6, or 15 less 0" },
    { "all of it is shared out: what each ring weighs does not matter", given = in_one("by the share", true), expect = { due = { { owner = "Ada", due = Q "1.8 g Au" }, { owner = "Ben", due = Q "0.6 g Au" } } }, source = "20 less 9.6 and 8" },
    { "handed back by the scale, a step too much: nothing is owed", given = { complete = false, working_loss = "8 %", scale_step = "0.01 g", record = {
        { at = "2026-11-24T10:00", what = "bar", mass = "20 g", fineness = "999 ‰", owner = "client", way = "in" },
        { at = "2026-11-26T10:00", what = "ring", mass = "10 g", fineness = "999 ‰", owner = "client", way = "piece" },
        { at = "2026-11-26T10:01", what = "button", mass = "15.8 g", fineness = "587 ‰", owner = "client", way = "here" },
        { at = "2026-11-27T10:00", what = "button, handed back", mass = "15.66 g", fineness = "587 ‰", owner = "client", way = "returned", from = "button" } } },
      expect = { due = { { due = Q "0 g Au", over = Q "0.00242 g Au" } } }, within = "0.000001 g Au", source = "19.98 less 10.7892 is 9.1908, down to 9.190; 15.66 g at 587 is 9.19242" },
    taken({ mass = "8.1 g" }, { "more of the button handed over than there is", stops = { "taken-lot" }, source = "8.1 of 8" }),
    taken({ mass = "8.03 g" }, { "by more than two weighings differ", stops = { "taken-lot" }, source = "8.03 of 8: two divisions of a scale are 0.02 g" }),
    taken({ mass = "8.02 g" }, { "by no more than that", expect = { due = { { owner = "client", due = Q "0.98 g Au" } } }, within = "0.0005 g Au",
      source = "20 - 10 - 8.02 and 10 % of 10: arithmetic" }),
    { "handed over to the last gram in two parts: 31.70 less 25.35 less 6.35 is nothing, however it rounds", given = { complete = false, working_loss = "5 %", record = {
        { at = "2026-11-24T10:00", what = "bar", mass = "50 g", fineness = "754.5 ‰", owner = "client", way = "in" },
        { at = "2026-11-26T10:00", what = "ring", mass = "18 g", fineness = "754.5 ‰", owner = "client", way = "piece" },
        { at = "2026-11-26T10:01", what = "button", mass = "31.70 g", fineness = "754.5 ‰", owner = "client", way = "here" },
        { at = "2026-11-27T10:00", what = "button, sold", mass = "25.35 g", fineness = "754.5 ‰", owner = "client", way = "kept", from = "button" },
        { at = "2026-11-27T10:05", what = "button, handed back", mass = "6.35 g", fineness = "754.5 ‰", owner = "client", way = "returned", from = "button" } } },
      expect = { owners = { { here = Q "0 g Au" } } }, within = "0.0001 g Au", source = "arithmetic" },
    { "kept by the studio, where the client was to have it: asked", given = agreed_button("client", "kept"), stops = { "kept-against" }, source = "worked example of our own" },
    agreed_to("12.6 g Au", { "The same, agreed as little as the tests allow", expect = { due = { { owner = "client", due = Q "5.6 g Au" } } },
      within = "0.0005 g Au", source = "12.6 less 7: arithmetic" }),
    agreed_to("12.59 g Au", { "A figure that is agreed lower than the tests allow is asked about", stops = { "agreed-off-1" },
      source = "20 g at 650 ‰ ± 10 ‰ and 0.02 g: 13 g, twice the root of 0.2² and 0.013² is 0.401" }),
    agreed_to("129.419 g Au", { "A point that has slipped pays out no fortune", stops = { "agreed-off-1" }, source = "the same" }),
    agreed_to("12.9 g Ag", { "Silver is agreed, and gold was brought", stops = { "agreed-owner-1" }, source = "worked example of our own" }),
    agreed_to("12.9 g Au", { "Agreed with somebody who brought nothing", stops = { "agreed-owner-1" }, source = "worked example of our own" }, "Perrin"),
    { "the studio's gold that stays with the client: neither taken back nor paid for", given = agreed_button("client", "here", { paid = false }),
      expect = { left_with = { { owner = "client", fine = Q "5 g Au" } }, due = { { owner = "client", due = Q "14 g Au" } } }, source = "20 and 5 less 10, and 10 % of 10" },
    { "it was charged in the quote", given = agreed_button("client", "here", { paid = "5 g Au" }), expect = { left_with = {} }, source = "5 less 5" },
    { "a part of it was", given = agreed_button("client", "here", { paid = "3 g Au" }), expect = { left_with = { { fine = Q "2 g Au" } } }, source = "5 less 3" },
    { "it was taken back out of the button", given = agreed_button("client", "kept", { paid = false }), expect = { left_with = {} }, stops = { "kept-against" }, source = "8 is more than 5" },
    { "gold and silver of one owner, both agreed", given = { complete = false, working_loss = "8 %", agreed = { { owner = "client", fine = "7.4 g Au" }, { owner = "client", fine = "4.6 g Ag" } }, record = {
        { at = "2026-11-24T10:00", what = "ring", mass = "10 g", fineness = "750 ‰ Au ± 10 ‰ Au", owner = "client", way = "in" },
        { at = "2026-11-24T10:02", what = "spoon", mass = "5 g", fineness = "925 ‰ Ag ± 10 ‰ Ag", owner = "client", way = "in" } } },
      expect = { due = { { owner = "client", due = Q "7.4 g Au" } }, other_due = { { owner = "client", due = Q "4.6 g Ag" } } }, source = "as agreed" },
    { "Gold and silver: an account each, and each owed back",
      given = { complete = false, working_loss = "8 %", record = {
        { at = "2026-11-24T10:00", what = "ring", mass = "10 g", fineness = "750 ‰ Au", owner = "client", way = "in" },
        { at = "2026-11-24T10:02", what = "spoon", mass = "5 g", fineness = "925 ‰ Ag", owner = "client", way = "in" } } },
      expect = { due = { { owner = "client", due = Q "7.5 g Au" } }, other_due = { { owner = "client", due = Q "4.625 g Ag" } } },
      within = "0.0005 g Au", source = "10 g at 750 and 5 g at 925: arithmetic" },
    { "Silver that is lost is asked about as gold is",
      given = { record = {
        { at = "2026-11-24T10:00", what = "spoon", mass = "50 g", fineness = "925 ‰ Ag", owner = "client", way = "in" },
        { at = "2026-11-24T10:02", what = "rest", mass = "40 g", fineness = "925 ‰ Ag", owner = "client", way = "here" } } },
      expect = { verdict = "open" }, stops = { "too-much-lost-ag" }, source = "9.25 g are gone, and the allowances come to less than 0.2 g" },
    { "One owner's metal that is lost, and nobody's that has appeared: asked, for nothing says where it went",
      given = { record = {
        { at = "2026-11-20", what = "chain", mass = "20 g", fineness = "750 ‰", owner = "Merrin", way = "in" },
        { at = "2026-11-20", what = "bangle", mass = "20 g", fineness = "750 ‰", owner = "Caspian", way = "in" },
        { at = "2026-11-22", what = "brooch", mass = "19.5 g", fineness = "750 ‰", owner = "Merrin", way = "piece" },
        { at = "2026-11-22", what = "buckle", mass = "20 g", fineness = "750 ‰", owner = "Caspian", way = "piece" } } },
      expect = { verdict = "within" }, stops = { "owner-lost-1" }, source = "computed: 0.375 g are gone, 0.191 g are usual, and 0.070 g is explained" },
    { "Three owners of one bangle whose rings do not match their shares: somebody has to say what holds",
      given = wardens(nil), stops = { "shares-and-pieces" }, source = "worked example of our own" },
    { "The same, each charged with the own ring",
      given = wardens "by the pieces",
      expect = { due = { { owner = "Ariwake", due = Q "1.46 g Au" }, { owner = "Osk", due = Q "1.21 g Au" }, { owner = "Tamehill", due = Q "2.23 g Au" } } },
      within = "0.005 g Au", source = "worked example of our own" },
    { "The same, what is left shared as the bangle was",
      given = wardens "by the share",
      expect = { due = { { owner = "Ariwake", due = Q "0.980 g Au" }, { owner = "Osk", due = Q "2.450 g Au" }, { owner = "Tamehill", due = Q "1.470 g Au" } } },
      within = "0.001 g Au", source = "4.900 g in parts of 50, 30 and 20 %: arithmetic" },
    { "Shares that do not sum to one are refused",
      given = { shares = { ["the wardens"] = { Osk = "50 %", Tamehill = "30 %", Ariwake = "10 %" } } }, stops = { "shares-sum" }, source = "arithmetic" },
    { "A record that runs backwards is refused",
      given = { record = { { at = "2026-11-22", what = "tree", mass = "40 g" }, { at = "2026-11-21", what = "raw casting", mass = "31 g" } } },
      stops = { "out-of-order" }, source = "a record only grows" },
    { "a casting that failed, melted again with its button and a gram of grain: each gram is there once", source = "21 g in; 9.5, 11 and 0.2 g: 0.3 g are lost, 0.3 % of 21 and of 19.9 g and 1 % of 9.5 g are usual",
      given = twice_melted("12 g"), expect = { loss = Q "0.3 g Au", expected = Q "0.2177 g Au", owners = { { here = Q "11.2 g Au" } } } },
    { "the button weighed a hundredth less when it went in: nothing of it lies there", given = twice_melted("11.99 g"), expect = { owners = { { here = Q "11.2 g Au" } } }, source = "common practice, no source" },
    { "a part of the button: the rest lies there still", given = twice_melted("8 g"), expect = { owners = { { here = Q "15.2 g Au" } } }, stops = { "metal-appeared" }, source = "12 less 8, and 11.2" },
    { "melted out of something that the record does not have: a slip of the pen", given = twice_melted("12 g", "buton"), stops = { "taken-lot" }, source = "house rule: asked, never assumed" },
    { "more of the button than there was", given = twice_melted("12.03 g"), stops = { "taken-lot" }, source = "12 g, and two divisions of a scale are 0.02 g" },
    { "the studio's button by agreement: what was melted of it was not kept", given = copy(twice_melted("12 g"), { button_to = "studio", complete = false, working_loss = "8 %" }), expect = { owners = { { kept = Q "11 g Au" } } }, source = "the one button that there is" },
    { "a bangle that was credited and never melted is not lost: it is to be recorded", given = { record = {
        { at = "2026-11-20", what = "bangle", mass = "3 g", fineness = "750 ‰", owner = "client", way = "in" }, { at = "2026-11-20", what = "weighed grain", mass = "20 g", fineness = "585 ‰", owner = "studio", way = "in" },
        { at = "2026-11-21", what = "poured" }, { at = "2026-11-21", what = "button", mass = "14.9 g", fineness = "585 ‰", owner = "studio", way = "here" }, { at = "2026-11-22", what = "finished", mass = "5 g", fineness = "585 ‰", owner = "studio", way = "piece" },
        { at = "2026-11-22", what = "filings", mass = "0.05 g", fineness = "585 ‰", owner = "studio", way = "here" } } },
      stops = { "too-much-lost" }, source = "worked example of our own" },
    { "Whose the button is must be said",
      given = { record = { { at = "2026-11-21", what = "button", mass = "14 g", fineness = "585 ‰", way = "here" } } },
      stops = { "owner-unsaid" }, source = "house rule: asked, never assumed" },
    { "The whole closes, and one client's gold stands under another's name",
      given = { record = {
        { at = "2026-11-20", what = "chain", mass = "20 g", fineness = "750 ‰", owner = "Merrin", way = "in" },
        { at = "2026-11-20", what = "bangle", mass = "20 g", fineness = "750 ‰", owner = "Caspian", way = "in" },
        { at = "2026-11-22", what = "brooch", mass = "15 g", fineness = "750 ‰", owner = "Merrin", way = "piece" },
        { at = "2026-11-22", what = "buckle", mass = "24.6 g", fineness = "750 ‰", owner = "Caspian", way = "piece" } } },
      expect = { verdict = "within" }, stops = { "owner-mismatch" }, source = "worked example of our own" },
    { "An 18 karat ring of 12 g holds 9 g of gold",
      given = { complete = false, record = { { at = "2026-11-20", what = "ring", mass = "12 g", fineness = "18 kt", owner = "client", way = "in" } } },
      expect = { brought = "9.0 g Au" }, within = "0.001 g Au", source = "an encyclopaedia of metals, yellow gold: 18/24 = 0.75, 0.75 x 12 = 9 g" },
    { "A refiner's fee of 45 is worth paying from 12.5 g of fine gold on",
      given = { prices = { Au = { price = "90 EUR/g", at = "2026-11-24", from = "refiner, buying" } },
                refiner = { yield = "99 %", payable = "97 %", fee = "45 EUR" } },
      expect = { least_lot = "12.5 g Au" }, source = "worked example of our own" },
    { "Sent with 5 g of fine gold in it, the fee is a tenth of what it brings",
      given = { jars = { { name = "grain", kind = "clean scrap", mass = "8 g", fineness = "625 ‰", owner = "studio" } },
                prices = { Au = { price = "90 EUR/g", at = "2026-11-24", from = "refiner, buying" } },
                refiner = { yield = "99 %", payable = "97 %", fee = "45 EUR" } },
      expect = { lots = { { fee_share = Q "10.0 %", send = false } } }, source = "45 of 450: arithmetic" },
    { "14 karat and 585 are not worth the same: 10 g at 2000 USD an ounce",
      given = { jars = { { name = "14K", kind = "clean scrap", mass = "10 g", fineness = "14 kt", owner = "studio" },
                         { name = "585", kind = "clean scrap", mass = "10 g", fineness = "585 ‰", owner = "studio" } },
                prices = { Au = { price = "2000 USD/ozt", at = "2026-11-24", from = "refiner, buying" } } },
      expect = { lots = { { worth = Q "375.09 USD" }, { worth = Q "376.16 USD" } } }, within = "0.01 USD",
      source = "troy ounce of 480 grains of 64.79891 mg: Weights and Measures Act (Canada); karat: C.R.C., c. 1303, s. 6(4)(a)" },
    { "Filings of 100 g at 585 hold 35 to 47 g of gold",
      given = { jars = { { name = "lemel", kind = "filings", mass = "100 g", fineness = "585 ‰", owner = "studio" } } },
      expect = { lots = { { expected = Q "40.95 g Au", spread = Q "3.38 g Au" } } }, within = "0.01 g Au",
      source = "60 to 80 % metal, anywhere between (common practice, no source): the mean, and the range by the root of 12" },
  }
  end,
}
