lemel enquiry "a 6 g ring in 18 kt sparkly"
lemel enquiry "a 6 g ring in 18 kt platinum"
lemel enquiry "a 6 g ring in 14kt from a 9 g ring of 6 g in 18 kt"
