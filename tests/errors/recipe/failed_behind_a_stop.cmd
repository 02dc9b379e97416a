# It fails with a mass of which it withholds everything.
lemel run wire thickness='20 mm' ring_inside='100 mm' metal='Ag925 sterling' ring_most='10 g'
