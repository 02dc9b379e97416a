-- want: BAD_RECIPE "requires itself"
require "itself"
