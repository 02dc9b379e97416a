-- want: BAD_RECIPE "does not list"
use.good {}
