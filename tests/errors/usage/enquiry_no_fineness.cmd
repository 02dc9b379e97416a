lemel enquiry "6 g" 14kt from "9 g"
