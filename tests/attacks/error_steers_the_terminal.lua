-- want: BAD_RECIPE "?[2J?[H all is well ?"
-- Tried: an error that clears the screen and turns the direction of writing
-- Held by: what nobody sees prints as ?
error("\27[2J\27[H all is well \u{202e}")
