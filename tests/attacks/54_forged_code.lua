-- want: BAD_RECIPE "the code of a remark is small letters"
sheet:note("good/x\n", "forged")
