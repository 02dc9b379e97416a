lemel enquiry 14kt "6 g" from "9 g" 18kt
