-- want: BAD_RECIPE "the name of a script is due"
return { out = require({}) }
