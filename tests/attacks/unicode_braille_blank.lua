-- want: BAD_RECIPE "invisible character"
-- Tried: a label with blanks of Braille, which no layout shortens, as if it had a column more
-- Held by: U+2800 draws nothing, and is refused like what else does
sheet.client:line("Gold⠀⠀⠀⠀⠀⠀⠀⠀⠀⠀10 g", Q "1 g") return {}
