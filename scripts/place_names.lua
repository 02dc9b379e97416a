-- The names of countries, and of the parts of some, for whoever writes a name where a code is due: only to suggest the code.
-- ISO 3166-1 and ISO 3166-2, as iso-codes 4.15 lists them; the English names of Germany's parts: from memory, unverified.

local countries = [[
  AD=Andorra; AE=United Arab Emirates; AF=Afghanistan; AG=Antigua and Barbuda; AI=Anguilla; AL=Albania; AM=Armenia; AO=Angola;
  AQ=Antarctica; AR=Argentina; AS=American Samoa; AT=Austria; AU=Australia; AW=Aruba; AX=Åland Islands; AZ=Azerbaijan;
  BA=Bosnia and Herzegovina; BB=Barbados; BD=Bangladesh; BE=Belgium; BF=Burkina Faso; BG=Bulgaria; BH=Bahrain; BI=Burundi; BJ=Benin;
  BL=Saint Barthélemy; BM=Bermuda; BN=Brunei Darussalam; BO=Bolivia; BQ=Bonaire; BR=Brazil; BS=Bahamas; BT=Bhutan; BV=Bouvet Island;
  BW=Botswana; BY=Belarus; BZ=Belize; CA=Canada; CC=Cocos (Keeling) Islands; CD=Congo, The Democratic Republic of the;
  CF=Central African Republic; CG=Congo; CH=Switzerland; CI=Côte d'Ivoire; CK=Cook Islands; CL=Chile; CM=Cameroon; CN=China; CO=Colombia;
  CR=Costa Rica; CU=Cuba; CV=Cabo Verde; CW=Curaçao; CX=Christmas Island; CY=Cyprus; CZ=Czechia; DE=Germany; DJ=Djibouti; DK=Denmark;
  DM=Dominica; DO=Dominican Republic; DZ=Algeria; EC=Ecuador; EE=Estonia; EG=Egypt; EH=Western Sahara; ER=Eritrea; ES=Spain; ET=Ethiopia;
  FI=Finland; FJ=Fiji; FK=Falkland Islands (Malvinas); FM=Micronesia; FO=Faroe Islands; FR=France; GA=Gabon; GB=United Kingdom;
  GD=Grenada; GE=Georgia; GF=French Guiana; GG=Guernsey; GH=Ghana; GI=Gibraltar; GL=Greenland; GM=Gambia; GN=Guinea; GP=Guadeloupe;
  GQ=Equatorial Guinea; GR=Greece; GS=South Georgia and the South Sandwich Islands; GT=Guatemala; GU=Guam; GW=Guinea-Bissau; GY=Guyana;
  HK=Hong Kong; HM=Heard Island and McDonald Islands; HN=Honduras; HR=Croatia; HT=Haiti; HU=Hungary; ID=Indonesia; IE=Ireland; IL=Israel;
  IM=Isle of Man; IN=India; IO=British Indian Ocean Territory; IQ=Iraq; IR=Iran; IS=Iceland; IT=Italy; JE=Jersey; JM=Jamaica; JO=Jordan;
  JP=Japan; KE=Kenya; KG=Kyrgyzstan; KH=Cambodia; KI=Kiribati; KM=Comoros; KN=Saint Kitts and Nevis; KP=North Korea; KR=South Korea;
  KW=Kuwait; KY=Cayman Islands; KZ=Kazakhstan; LA=Laos; LB=Lebanon; LC=Saint Lucia; LI=Liechtenstein; LK=Sri Lanka; LR=Liberia;
  LS=Lesotho; LT=Lithuania; LU=Luxembourg; LV=Latvia; LY=Libya; MA=Morocco; MC=Monaco; MD=Moldova; ME=Montenegro;
  MF=Saint Martin (French part); MG=Madagascar; MH=Marshall Islands; MK=North Macedonia; ML=Mali; MM=Myanmar; MN=Mongolia; MO=Macao;
  MP=Northern Mariana Islands; MQ=Martinique; MR=Mauritania; MS=Montserrat; MT=Malta; MU=Mauritius; MV=Maldives; MW=Malawi; MX=Mexico;
  MY=Malaysia; MZ=Mozambique; NA=Namibia; NC=New Caledonia; NE=Niger; NF=Norfolk Island; NG=Nigeria; NI=Nicaragua; NL=Netherlands;
  NO=Norway; NP=Nepal; NR=Nauru; NU=Niue; NZ=New Zealand; OM=Oman; PA=Panama; PE=Peru; PF=French Polynesia; PG=Papua New Guinea;
  PH=Philippines; PK=Pakistan; PL=Poland; PM=Saint Pierre and Miquelon; PN=Pitcairn; PR=Puerto Rico; PS=Palestine; PT=Portugal; PW=Palau;
  PY=Paraguay; QA=Qatar; RE=Réunion; RO=Romania; RS=Serbia; RU=Russian Federation; RW=Rwanda; SA=Saudi Arabia; SB=Solomon Islands;
  SC=Seychelles; SD=Sudan; SE=Sweden; SG=Singapore; SH=Saint Helena; SI=Slovenia; SJ=Svalbard and Jan Mayen; SK=Slovakia;
  SL=Sierra Leone; SM=San Marino; SN=Senegal; SO=Somalia; SR=Suriname; SS=South Sudan; ST=Sao Tome and Principe; SV=El Salvador;
  SX=Sint Maarten (Dutch part); SY=Syria; SZ=Eswatini; TC=Turks and Caicos Islands; TD=Chad; TF=French Southern Territories; TG=Togo;
  TH=Thailand; TJ=Tajikistan; TK=Tokelau; TL=Timor-Leste; TM=Turkmenistan; TN=Tunisia; TO=Tonga; TR=Türkiye; TT=Trinidad and Tobago;
  TV=Tuvalu; TW=Taiwan; TZ=Tanzania; UA=Ukraine; UG=Uganda; UM=United States Minor Outlying Islands; US=United States; UY=Uruguay;
  UZ=Uzbekistan; VA=Holy See (Vatican City State); VC=Saint Vincent and the Grenadines; VE=Venezuela; VG=Virgin Islands, British;
  VI=Virgin Islands, U.S.; VN=Vietnam; VU=Vanuatu; WF=Wallis and Futuna; WS=Samoa; YE=Yemen; YT=Mayotte; ZA=South Africa; ZM=Zambia;
  ZW=Zimbabwe;
]]

local parts = [[
  AU-ACT=Australian Capital Territory; AU-NSW=New South Wales; AU-NT=Northern Territory; AU-QLD=Queensland; AU-SA=South Australia;
  AU-TAS=Tasmania; AU-VIC=Victoria; AU-WA=Western Australia; CA-AB=Alberta; CA-BC=British Columbia; CA-MB=Manitoba; CA-NB=New Brunswick;
  CA-NL=Newfoundland and Labrador; CA-NS=Nova Scotia; CA-NT=Northwest Territories; CA-NU=Nunavut; CA-ON=Ontario;
  CA-PE=Prince Edward Island; CA-QC=Quebec; CA-SK=Saskatchewan; CA-YT=Yukon; DE-BB=Brandenburg; DE-BE=Berlin; DE-BW=Baden-Württemberg;
  DE-BY=Bayern; DE-HB=Bremen; DE-HE=Hessen; DE-HH=Hamburg; DE-MV=Mecklenburg-Vorpommern; DE-NI=Niedersachsen; DE-NW=Nordrhein-Westfalen;
  DE-RP=Rheinland-Pfalz; DE-SH=Schleswig-Holstein; DE-SL=Saarland; DE-SN=Sachsen; DE-ST=Sachsen-Anhalt; DE-TH=Thüringen; US-AK=Alaska;
  US-AL=Alabama; US-AR=Arkansas; US-AS=American Samoa; US-AZ=Arizona; US-CA=California; US-CO=Colorado; US-CT=Connecticut;
  US-DC=District of Columbia; US-DE=Delaware; US-FL=Florida; US-GA=Georgia; US-GU=Guam; US-HI=Hawaii; US-IA=Iowa; US-ID=Idaho;
  US-IL=Illinois; US-IN=Indiana; US-KS=Kansas; US-KY=Kentucky; US-LA=Louisiana; US-MA=Massachusetts; US-MD=Maryland; US-ME=Maine;
  US-MI=Michigan; US-MN=Minnesota; US-MO=Missouri; US-MP=Northern Mariana Islands; US-MS=Mississippi; US-MT=Montana;
  US-NC=North Carolina; US-ND=North Dakota; US-NE=Nebraska; US-NH=New Hampshire; US-NJ=New Jersey; US-NM=New Mexico; US-NV=Nevada;
  US-NY=New York; US-OH=Ohio; US-OK=Oklahoma; US-OR=Oregon; US-PA=Pennsylvania; US-PR=Puerto Rico; US-RI=Rhode Island;
  US-SC=South Carolina; US-SD=South Dakota; US-TN=Tennessee; US-TX=Texas; US-UM=United States Minor Outlying Islands; US-UT=Utah;
  US-VA=Virginia; US-VI=Virgin Islands, U.S.; US-VT=Vermont; US-WA=Washington; US-WI=Wisconsin; US-WV=West Virginia; US-WY=Wyoming;
]]

local english = [[
  DE-BY=Bavaria; DE-HE=Hesse; DE-NI=Lower Saxony; DE-NW=North Rhine-Westphalia; DE-RP=Rhineland-Palatinate; DE-SN=Saxony;
  DE-ST=Saxony-Anhalt; DE-TH=Thuringia;
]]

-- The codes of what is called so, in their order; several where several are.
--     place_names.codes("Victoria")[1]   -- AU-VIC
local function codes(wanted)
  local plain, found = wanted:trim():lower(), {}
  for _, list in ipairs { countries, parts, english } do
    for _, entry in ipairs(list:split(";")) do
      local pair = entry:trim():split("=")
      if #pair == 2 and pair[2]:lower() == plain then table.insert(found, pair[1]) end
    end
  end
  return found
end

return { codes = codes }
