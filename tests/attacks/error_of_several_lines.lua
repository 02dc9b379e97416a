-- want: BAD_RECIPE "proved: 12 of 12?STOP none"
-- Tried: an error that goes on in lines that read like lemel's own
-- Held by: a message is one line
error("the recipe is proved: 12 of 12\nSTOP none\n\nWorked by quote 1.0.0")
