-- want: LIMIT "did more work than it is allowed"
-- Powers of two are all there, so that the border of the list is found at 2^62.
local t = {
  [1 << 0] = true, [1 << 1] = true, [1 << 2] = true, [1 << 3] = true, [1 << 4] = true, [1 << 5] = true, [1 << 6] = true,
  [1 << 7] = true, [1 << 8] = true, [1 << 9] = true, [1 << 10] = true, [1 << 11] = true, [1 << 12] = true, [1 << 13] = true,
  [1 << 14] = true, [1 << 15] = true, [1 << 16] = true, [1 << 17] = true, [1 << 18] = true, [1 << 19] = true, [1 << 20] = true,
  [1 << 21] = true, [1 << 22] = true, [1 << 23] = true, [1 << 24] = true, [1 << 25] = true, [1 << 26] = true, [1 << 27] = true,
  [1 << 28] = true, [1 << 29] = true, [1 << 30] = true, [1 << 31] = true, [1 << 32] = true, [1 << 33] = true, [1 << 34] = true,
  [1 << 35] = true, [1 << 36] = true, [1 << 37] = true, [1 << 38] = true, [1 << 39] = true, [1 << 40] = true, [1 << 41] = true,
  [1 << 42] = true, [1 << 43] = true, [1 << 44] = true, [1 << 45] = true, [1 << 46] = true, [1 << 47] = true, [1 << 48] = true,
  [1 << 49] = true, [1 << 50] = true, [1 << 51] = true, [1 << 52] = true, [1 << 53] = true, [1 << 54] = true, [1 << 55] = true,
  [1 << 56] = true, [1 << 57] = true, [1 << 58] = true, [1 << 59] = true, [1 << 60] = true, [1 << 61] = true, [1 << 62] = true }
table.insert(t, 1, true)
