-- want: BAD_RECIPE "holds a NUL"
-- The rule that is read is not the rule that is written.
return { out = Q("1 USD"):rounded "half up\0 no, down" }
