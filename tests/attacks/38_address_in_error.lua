-- want: BAD_RECIPE "a value is needed, but a table was given"
return { out = sum { {}, {} } }
