lemel run enquiry pieces=[] mass="6 g" prices='{"Au":{"price":"98 USD/g","at":"2026-11-24","from":"x"}}'
