-- want: LIMIT "did more work than it is allowed"
::again:: goto again
