lemel enquiry "9 g signet in 14ct from 20 ct of 18 kt"
