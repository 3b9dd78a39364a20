import type { Source } from '../plan/figure';

/**
 * The publications that reference values come from, each once. `published` means that the value was read in the
 * publication or follows from it by arithmetic; `from memory` that it was recalled and should be looked up before it
 * decides anything; `common practice` that it is the trade's rule of thumb and no publication stands behind it.
 */
export const sources = {
  ucDavisApples: published(
    'Mitcham, Crisosto and Kader, Produce Facts: Apple (Golden Delicious, Red Delicious, Gala, Granny Smith), University of California, Davis, Postharvest Center',
  ),
  ucDavisBartlett: published(
    'Mitcham, Crisosto and Kader, Produce Facts: Pear, Bartlett, University of California, Davis, Postharvest Center, https://postharvest.ucdavis.edu/Commodity_Resources/Fact_Sheets/Datastores/Fruit_English/index.cfm?uid=46&ds=798',
  ),
  ucDavisWinterPears: published(
    'Mitcham, Crisosto and Kader, Produce Facts: Pear, Anjou, Bosc and Comice, University of California, Davis, Postharvest Center, https://postharvest.ucdavis.edu/Commodity_Resources/Fact_Sheets/Datastores/Fruit_English/index.cfm?uid=45&ds=798',
  ),
  handbook66Respiration: fromMemory(
    'Gross, Wang and Saltveit (editors), The Commercial Storage of Fruits, Vegetables, and Florist and Nursery Stocks, USDA Agriculture Handbook 66, 2016, summary table of respiration rates',
  ),
  handbook66Apples: fromMemory(
    'Watkins, Kupferman and Rosenberger, Apple, in USDA Agriculture Handbook 66, 2016',
  ),
  handbook66Pears: fromMemory('Pear chapter of USDA Agriculture Handbook 66, 2016'),
  ashraeHeat: fromMemory(
    'ASHRAE Handbook, Refrigeration, Thermal properties of foods, table of heat of respiration (2006 ch. 9; 2014 and 2018 ch. 19)',
  ),
  bohlingHansen: published(
    'Bohling and Hansen 1983, Acta Horticulturae 138:93-106, https://www.ishs.org/ishs-article/138_10',
  ),
  containerHandbook: published(
    'Container Handbook, German Insurance Association (GDV), https://containerhandbuch.de/chb/wild/wild_09_02_02.html',
  ),
  deng: published(
    'Deng and others 1997, University of California Postharvest Horticulture Series 16:156-161, respiratory quotient breakpoints at 0 °C',
  ),
  ho: fromMemory(
    'Ho and others 2008, PLoS Computational Biology 4(3):e1000023, gas exchange of pear tissue (Conference) at 20 °C',
  ),
  heatsOfCombustion: published(
    'Nielsen, Villadsen and Lidén, Bioreaction Engineering Principles, second edition, Table 4.3, heats of combustion at 298 K',
  ),
  prangeWright: published(
    'Prange and Wright 2023, A Review of Storage Temperature Recommendations for Apples and Pears, Foods 12(3):466, https://doi.org/10.3390/foods12030466',
  ),
  cornellGala: published(
    'Cornell University, Eastern New York Commercial Horticulture, Gala storage, 2024 and 2025, https://blogs.cornell.edu/enychp',
  ),
  cornellHoneycrisp: published(
    'Cornell University, Eastern New York Commercial Horticulture, Honeycrisp storage, 2025, https://blogs.cornell.edu/enychp',
  ),
  brazilGala: published(
    'Royal Gala in controlled atmosphere, Scientia Agricola 2015, https://www.scielo.br, S0103-90162015000100028',
  ),
  lau1983: published('Lau 1983, storage of Golden Delicious and Delicious at low oxygen in British Columbia'),
  lau1990: published('Lau 1990, HortScience 25(11):1412, 0.5 % oxygen for 7 months at 0.5 °C'),
  wsuHoneycrisp: published(
    'Washington State University, Honeycrisp storage recommendations revisited, https://treefruit.wsu.edu/article/honeycrisp-storage-recommendations-revisited',
  ),
  michiganHoneycrisp: published(
    'Honeycrisp storage for 2011, Fruit Growers News, https://fruitgrowersnews.com/news/honeycrisp-storage-for-2011; Crucial tips to store Honeycrisp, Good Fruit Grower, https://www.goodfruit.com/crucial-tips-to-store-honeycrisp',
  ),
  drakeKupferman: published(
    'Drake and Kupferman 2000, Journal of the American Pomological Society 54(4):213, Jonagold',
  ),
  mattheisCarbonDioxide: published(
    'Mattheis (USDA), Dealing with carbon dioxide sensitivity, Good Fruit Grower, https://www.goodfruit.com/dealing-with-carbon-dioxide-sensitivity',
  ),
  elgar: published(
    'Elgar and others 1998, Storage and handling effects on a CO2-related internal browning disorder of Braeburn apples, HortScience 33(4):719-722 (abstract)',
  ),
  ucDavisScald: published(
    'University of California, Davis, Postharvest Center, Apple: Scald, https://postharvest.ucdavis.edu/disorders/apple-scald',
  ),
  usdaScald: published('U.S. Department of Agriculture, Apple scald and its control, revised March 1954'),
  wsuSenescentScald: published(
    'Washington State University, Tree Fruit Market Diseases, Senescent scald, http://postharvest.tfrec.wsu.edu/market/senescentscald',
  ),
  deellGala: published(
    'DeEll, in Cultivars with reputations for storage complications, Good Fruit Grower, https://www.goodfruit.com/cultivars-with-reputations-for-storage-complications',
  ),
  honeycrispCornellTrial: published(
    'Bitter pit and soft scald in Honeycrisp during cold storage, American Society for Horticultural Science, annual conference 2014, https://ashs.confex.com/ashs/2014/webprogram/Paper19244.html',
  ),
  chuMcIntosh: published(
    'Chu 1999, Effects of storage temperature, storage atmosphere, and growing region on internal browning disorder of McIntosh apples, HortTechnology 9(1):75 (abstract)',
  ),
  argenta: published('Argenta and others 2000, Postharvest Biology and Technology 20:221-229, Fuji'),
  oregonBosc: published('Controlled atmosphere storage of Bosc pears, Oregon trials, −1 °C, 6 months'),
  chu: published('Chu 1995, HortScience 30(4):792C, Bartlett pears in Ontario'),
  maine: published(
    'University of Maine Cooperative Extension, Controlled Atmosphere Storage, https://extension.umaine.edu/fruit/harvest-and-storage-of-tree-fruits/controlled-atmosphere-storage',
  ),
  michiganMaturity: published(
    'Michigan State University Extension, Checking apple maturity: what to look for, Table 1 (11 mm probe, 8 mm deep; starch by Cornell Bulletin 221)',
  ),
  kansas: published(
    'Kansas State University Extension (Upham), Storing apples, https://ruralmessenger.com/kansas-news/horticulture/storing-apples-3',
  ),
  iowa: published(
    'Iowa State University Extension, storage of apples at 30 to 32 °F and 90 to 95 % humidity, https://docslib.org/doc/12941050',
  ),
  washingtonFirmness: published(
    'Washington Administrative Code 16-403-144 (WSR 17-03-002, 2017), minimum firmness at shipment, https://lawfilesext.leg.wa.gov',
  ),
  ukBuyers: published(
    "NIAB Apple Best Practice Guide, buyers' minimum firmness, Table 27, https://www.niab.com/node/2757",
  ),
  niabCox: published(
    "NIAB Apple Best Practice Guide, Cox's Orange Pippin and clones: medium-term (December/January) and long-term storage (February/March), https://www.niab.com/coxs-orange-pippin-and-clones-medium-decemberjanuary-long-term-storage-februarymarch",
  ),
  niabSoftening: published(
    'NIAB Apple Best Practice Guide, softening of Cox in store, https://www.niab.com/node/2757',
  ),
  niabBraeburn: published(
    'NIAB Apple Best Practice Guide, Braeburn and clones, air and CA storage, https://www.niab.com/braeburn-and-clones-air-and-ca-storage',
  ),
  mcintoshFirmness: published(
    'Three-season study of McIntosh firmness and acceptance (desirable 58 N, least 45 N)',
  ),
  handbook66HeatLoad: published(
    'USDA Agriculture Handbook 66, chapter "Heat Load Calculation", read in a copy at https://www.scribd.com/doc/259945372',
  ),
  fruitDensity: fromMemory('True density of apples 820 to 860 kg/m3 (general food engineering tables)'),
  wflo: published(
    'World Food Logistics Organization, Commodity Storage Manual: Apples, 2008, https://www.scribd.com/document/579136178',
  ),
  delayInHandbook: fromMemory(
    'USDA Agriculture Handbook 66: a day at 21 °C after harvest takes 7 to 10 days of storage life at 0 °C',
  ),
  washingtonCaRule: published(
    'Washington Administrative Code 16-450-041 (from 6 June 2015), https://lawfilesext.leg.wa.gov',
  ),
  washingtonRecordRule: published(
    'Washington Administrative Code 16-450-028, https://app.leg.wa.gov/WAC/default.aspx?cite=16-450-028',
  ),
  newYorkCaLaw: published(
    'New York Agriculture and Markets Law § 156-dd, https://www.nysenate.gov/legislation/laws/AGM/156-DD',
  ),
  newYorkCaRule: published(
    'New York Codes, Rules and Regulations, title 1, section 187.6, Storage of apples',
  ),
  gasLaw: published(
    'Ideal gas at 101.325 kPa; R = 8.314462618 J/(mol K), CO2 44.0095 g/mol (CODATA 2018, IUPAC)',
  ),
} as const satisfies Readonly<Record<string, Source>>;

/** A rule of thumb of the trade; `what` says what it rests on. */
export function commonPractice(what: string): Source {
  return { citation: what, known: 'common practice' };
}

/** The same publication, with a remark on how the value was taken from it. */
export function remark(source: Source, text: string): Source {
  return { ...source, citation: `${source.citation} (${text})` };
}

function published(citation: string): Source {
  return { citation, known: 'published' };
}

function fromMemory(citation: string): Source {
  return { citation, known: 'from memory' };
}
