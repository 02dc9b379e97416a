-- want: BAD_RECIPE "does not say that it uses"
use.good {}
