cat > r.lua <<'END'
return recipe { title = "T", version = "1.0.0", level = 1,
  gives = { a = give.mass "A" },
  work = function (job, house, sheet)
    local function f() return 1 + f() end
    return f()
  end }
END
lemel run r.lua
