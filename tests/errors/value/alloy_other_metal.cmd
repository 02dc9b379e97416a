lemel run need metal="platinum 950"
