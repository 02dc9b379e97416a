-- want: BAD_RECIPE "carriage return on its own"
-- Tried: code behind a comment, after a carriage return that many an editor does not show
-- Held by: one without a line feed is refused when the text is put
-- all is well here do return { number = 7 } end
return { number = 1 }
