echo mine > words.lua && mkdir .lemel && ln -s ../words.lua .lemel/words.lua
lemel new annotations --replace; status=$?
cat words.lua >&2
exit $status
