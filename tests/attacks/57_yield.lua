-- want: BAD_RECIPE "'coroutine' is not known here"
coroutine.yield()
