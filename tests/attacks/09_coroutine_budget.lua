-- want: BAD_RECIPE "'coroutine' is not known here"
while true do coroutine.wrap(function () for i = 1, 900 do end end)() end
