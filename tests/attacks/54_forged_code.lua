-- want: BAD_RECIPE "the code of a remark may only have small letters"
sheet:note("good/x\n", "forged")
