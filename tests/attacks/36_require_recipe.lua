-- want: BAD_RECIPE "no script is called"
return { out = require "good" }
