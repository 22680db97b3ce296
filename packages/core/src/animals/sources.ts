import type { Source } from "../relation/index.ts";

/** Bibliography of the animals room. */
export const sources: Readonly<Record<string, Source>> = {
  "timmons-ebeling": { cite: "Timmons & Ebeling, Recirculating Aquaculture (2007/2010)", how: "memory" },
  boyd: { cite: "Boyd, Oxygen demand of aquaculture feed; Boyd, Chatvijitkul & Davis on aquafeeds", how: "read" },
  "lupatsch-2013": {
    cite: "Lupatsch, Floyd, Shields & Snellgrove 2013, Israeli Journal of Aquaculture 65.2013.917 (summary)",
    how: "read",
  },
  "sales-janssens-2003": { cite: "Sales & Janssens 2003, Aquatic Living Resources 16:533 (abstract)", how: "read" },
  "pannevis-earle-1994": { cite: "Pannevis & Earle 1994, Journal of Nutrition 124:2616S (part)", how: "read" },
  "hill-1979": { cite: "Hill 1979, Aquatic Botany 7:87, release from litter (abstract)", how: "read" },
  "trout-phosphorus": { cite: "Two trout studies on phosphorus of feed and faeces (abstracts)", how: "read" },
  "diaz-2012": {
    cite: "Díaz et al. 2012, Aquacultural Engineering 50:20, time course of excretion (abstract)",
    how: "read",
  },
  "clarke-johnston-1999": { cite: "Clarke & Johnston 1999, Journal of Animal Ecology 68:893 (abstract)", how: "read" },
  "fishbase-oxygen": { cite: "FishBase 06/2021, oxygen consumption records, evaluated here", how: "read" },
  "fish-pictures": { cite: "FishBase 06/2021, measurements on pictures, 13 032 fish, evaluated here", how: "read" },
  "winberg-1956": { cite: "Winberg 1956, metabolism of fish", how: "memory" },
  "liu-2010": {
    cite: "Liu et al. 2010, doi 10.13292/j.1000-4890.2010.0162, Exopalaemon modestus (abstract)",
    how: "read",
  },
  "froese-2014": {
    cite: "Froese, Thorson & Reyes 2014, Journal of Applied Ichthyology 30:78, length-weight priors by body shape",
    how: "memory",
  },
  "ebeling-2006": {
    cite: "Ebeling, Timmons & Bisogni 2006, Aquaculture 257:346, nitrification with biomass",
    how: "memory",
  },
  "benson-krause-1984": { cite: "Benson & Krause 1984, oxygen saturation of fresh water", how: "read" },
  "epa-2013-ammonia": { cite: "US EPA 822-R-13-001 (2013), ammonia criteria; 78 FR 52192", how: "memory" },
  "epa-1999-ammonia": {
    cite: "US EPA 822-R-99-014 (1999), ammonia criteria, formulas as adopted in South Dakota rule 74:51:01 appendix A",
    how: "read",
  },
  "emerson-1975": {
    cite: "Emerson et al. 1975, Journal of the Fisheries Research Board of Canada 32:2379",
    how: "memory",
  },
  "ifas-fa16": { cite: "UF/IFAS FA16, ammonia in aquatic systems (republished copy)", how: "read" },
  "zebrafish-housing": { cite: "Housing of zebrafish, guidance page on physical conditions", how: "read" },
  "camargo-2005": { cite: "Camargo, Alonso & Salamanca 2005, Chemosphere 58:1255, nitrate (abstract)", how: "read" },
  "tilapia-nitrite": { cite: "Nitrite and chloride in tilapia of 1.8 g, 96-h LC50 (abstract)", how: "read" },
  "avilez-2004": {
    cite: "Avilez et al. 2004, Comparative Biochemistry and Physiology C 139:135 (abstract)",
    how: "read",
  },
  "tomasso-1986": { cite: "Tomasso 1986, Aquatic Toxicology 8:129, nitrite by family (abstract)", how: "read" },
  "epa-1986-oxygen": { cite: "US EPA 440/5-86-003 (1986), dissolved oxygen criteria, table 1", how: "memory" },
  "eldridge-2010": {
    cite: "Eldridge et al. 2010, American Fisheries Society meeting, paper 33-4 (abstract)",
    how: "read",
  },
  "allen-strawn-1971": { cite: "Allen & Strawn 1971, Transactions AFS 100:665 (abstract)", how: "read" },
  "yang-2008": { cite: "Yang et al. 2008, copper and Macrobrachium nipponense (abstract)", how: "read" },
  "wac-173-201a-240": { cite: "Washington Administrative Code 173-201A-240, notes o and p", how: "read" },
  "fivelstad-2018": {
    cite: "Fivelstad et al., salmon parr about 2015 and post-smolt 2018, carbon dioxide",
    how: "read",
  },
  "srac-468": { cite: "SRAC 468, Hargreaves & Brunson 1996, carbon dioxide in fish ponds", how: "read" },
  "wedemeyer-1996": {
    cite: "Wedemeyer 1996 and Alabaster & Lloyd 1980, carbon dioxide, after a Danish review",
    how: "read",
  },
  "swiss-455-1": { cite: "Swiss Animal Protection Ordinance, SR 455.1, annex 2 table 8", how: "read" },
  "mihalitsis-bellwood-2017": { cite: "Mihalitsis & Bellwood 2017, PLoS ONE e0184679, gape (abstract)", how: "read" },
  arithmetic: { cite: "mass balance, worked out here", how: "derived" },
  trade: { cite: "common practice, no source", how: "common practice" },
  chosen: { cite: "value or limit chosen for this project inside published ranges", how: "design value" },
};
