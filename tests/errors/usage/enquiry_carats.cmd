lemel enquiry "9 g signet in 14ct from 7 g old 18 carat and 6 g of 9ct" prices='{"Au":{"price":"90 USD/g","at":"2026-11-24","from":"list"}}'
