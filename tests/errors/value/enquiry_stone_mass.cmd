lemel enquiry "a 6 g ring in 1.6 ct" prices='{"Au":{"price":"90 USD/g","at":"2026-11-24","from":"list"}}'
lemel enquiry "a 6 g ring in 14kt" fineness="1.6 ct" prices='{"Au":{"price":"90 USD/g","at":"2026-11-24","from":"list"}}'
