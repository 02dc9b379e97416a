-- want: BAD_RECIPE "attempt to compare two table values"
table.sort({ {}, {}, {} })
