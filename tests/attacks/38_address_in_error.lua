-- want: BAD_RECIPE "a value is due, and a table was given"
return { out = sum { {}, {} } }
