import { strToU8, type Zippable, zipSync } from 'fflate';
import { shortened } from '../../plan/shortened';
import { writtenFor } from './marks';
import type { Paper } from './paper';
import { SharedTexts, sheetXml } from './sheet-xml';
import { type Sheet, sheetsOf } from './sheets';
import { STYLES } from './workbook-styles';
import { xmlText } from './xml';

const DECLARATION = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const RELATIONS = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006';
const TYPES = 'application/vnd.openxmlformats-officedocument.spreadsheetml';

/** The earliest day a zip archive can tell, by the machine's own clock: archives hold local time. */
const always = () => new Date(1980, 0, 1);

/**
 * Papers as a workbook (Office Open XML, ECMA-376): a sheet a table, days as dates, numbers as numbers, headings that
 * stay in sight. The same papers give the same bytes.
 */
export function workbookBytes(papers: readonly Paper[]): Uint8Array {
  const sheets = sheetsOf(papers);
  const texts = new SharedTexts();
  const parts = sheets.map((sheet) => sheetXml(sheet, texts));
  const title = papers[0] ? `${papers[0].title}: ${shortened(papers[0].account.title)}` : '';
  const files: Record<string, string> = {
    '[Content_Types].xml': contentTypes(sheets.length),
    '_rels/.rels': packageRelations,
    'docProps/app.xml': `<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties"><Application>Lotwright</Application></Properties>`,
    'docProps/core.xml': `<cp:coreProperties xmlns:cp="${PACKAGE}/metadata/core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/"><dc:title>${xmlText(title)}</dc:title><dc:creator>Lotwright</dc:creator></cp:coreProperties>`,
    'xl/workbook.xml': workbookXml(sheets),
    'xl/_rels/workbook.xml.rels': workbookRelations(sheets.length),
    'xl/styles.xml': STYLES,
    'xl/sharedStrings.xml': texts.xml(),
  };
  parts.forEach((xml, index) => {
    files[`xl/worksheets/sheet${index + 1}.xml`] = xml;
  });
  return zipSync(zippable(files, writtenFor(papers[0]?.reader ?? 'everyone')));
}

function zippable(files: Readonly<Record<string, string>>, comment: string): Zippable {
  return Object.fromEntries(
    Object.entries(files).map(([name, xml]) => [
      name,
      // The remark tells whose file it is without unpacking it.
      [strToU8(DECLARATION + xml), { mtime: always(), level: 6, comment, os: 0 }],
    ]),
  );
}

function contentTypes(count: number): string {
  const sheets = numbers(count).map((index) =>
    override(`xl/worksheets/sheet${index}.xml`, `${TYPES}.worksheet+xml`),
  );
  const others = [
    override('xl/workbook.xml', `${TYPES}.sheet.main+xml`),
    override('xl/styles.xml', `${TYPES}.styles+xml`),
    override('xl/sharedStrings.xml', `${TYPES}.sharedStrings+xml`),
    override('docProps/app.xml', 'application/vnd.openxmlformats-officedocument.extended-properties+xml'),
    override('docProps/core.xml', 'application/vnd.openxmlformats-package.core-properties+xml'),
  ];
  return `<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>${[...others, ...sheets].join('')}</Types>`;
}

function override(part: string, type: string): string {
  return `<Override PartName="/${part}" ContentType="${type}"/>`;
}

const packageRelations = relationships([
  ['rId1', `${RELATIONS}/officeDocument`, 'xl/workbook.xml'],
  ['rId2', `${PACKAGE}/relationships/metadata/core-properties`, 'docProps/core.xml'],
  ['rId3', `${RELATIONS}/extended-properties`, 'docProps/app.xml'],
]);

function workbookRelations(count: number): string {
  return relationships([
    ...numbers(count).map(
      (index) => [`rId${index}`, `${RELATIONS}/worksheet`, `worksheets/sheet${index}.xml`] as const,
    ),
    [`rId${count + 1}`, `${RELATIONS}/styles`, 'styles.xml'],
    [`rId${count + 2}`, `${RELATIONS}/sharedStrings`, 'sharedStrings.xml'],
  ]);
}

function relationships(list: readonly (readonly [id: string, type: string, target: string])[]): string {
  const all = list.map(
    ([id, type, target]) => `<Relationship Id="${id}" Type="${type}" Target="${target}"/>`,
  );
  return `<Relationships xmlns="${PACKAGE}/relationships">${all.join('')}</Relationships>`;
}

/** Headings are repeated on each page that is printed. */
function workbookXml(sheets: readonly Sheet[]): string {
  const list = sheets.map(
    ({ name }, index) => `<sheet name="${xmlText(name)}" sheetId="${index + 1}" r:id="rId${index + 1}"/>`,
  );
  const titles = sheets.map(({ name, headingRow }, index) => {
    const rows = `'${name.replaceAll("'", "''")}'!$1:$${headingRow}`;
    return `<definedName name="_xlnm.Print_Titles" localSheetId="${index}">${xmlText(rows)}</definedName>`;
  });
  return `<workbook xmlns="${MAIN}" xmlns:r="${RELATIONS}"><sheets>${list.join('')}</sheets><definedNames>${titles.join('')}</definedNames></workbook>`;
}

function numbers(count: number): number[] {
  return Array.from({ length: count }, (_, index) => index + 1);
}
