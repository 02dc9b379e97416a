-- want: BAD_RECIPE "the name of a script is needed"
return { out = require({}) }
