// Paper and grids of labels, in mm: what was asked for, and how many labels stand on a sheet.
import { bad, good, type Outcome } from '../../outcome.js';

/** mm */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** ISO 216 A4; ANSI/ASME Y14.1 A (Letter, 8.5 in by 11 in). */
const papers = {
  A4: { width: 210, height: 297 },
  Letter: { width: 215.9, height: 279.4 },
} as const;
export type PaperName = keyof typeof papers;

export const paperSize = (paper: PaperName): Size => papers[paper];

/**
 * How labels stand on a sheet; margins are those to the left and at the top, the right and lower ones are what is left.
 */
export interface Sheet {
  readonly paper: PaperName;
  readonly label: Size;
  readonly columns: number;
  readonly rows: number;
  readonly margin: { readonly left: number; readonly top: number };
}

export interface SheetAsked {
  /** `40x20mm` */
  readonly size?: string;
  /** `4x12`: columns by rows. */
  readonly grid?: string;
  readonly paper?: string;
}

/** What most desktop printers leave white at the edge, with a little to spare (common practice, no source). */
const edge = 8;
const [smallest, largest] = [10, 280];
const mostAcross = 40;

const millimetresIn: Readonly<Record<string, number>> = { mm: 1, cm: 10, '': 1 };

/**
 * A size as it is written: width by height.
 * @example parseSize('40x20mm').value // { width: 40, height: 20 }
 */
export function parseSize(text: string): Outcome<Size> {
  const match = /^\s*(\d+(?:[.,]\d+)?)\s*[x×*]\s*(\d+(?:[.,]\d+)?)\s*(mm|cm|)\s*$/i.exec(text);
  if (!match)
    return bad({
      code: 'size',
      message: `'${text}' is not the size of a label.`,
      cure: 'Write width and height: --size 40x20mm.',
    });
  const factor = millimetresIn[match[3]!.toLowerCase()]!;
  const [width, height] = [match[1]!, match[2]!].map((part) => Number(part.replace(',', '.')) * factor) as [
    number,
    number,
  ];
  if ([width, height].every((side) => side >= smallest && side <= largest)) return good({ width, height });
  return bad({
    code: 'size',
    message: `A label of ${width} by ${height} mm cannot be printed here.`,
    cure: `Each side is from ${smallest} to ${largest} mm.`,
  });
}

/**
 * A grid as it is written: columns by rows.
 * @example parseGrid('4x12').value // { columns: 4, rows: 12 }
 */
export function parseGrid(text: string): Outcome<{ readonly columns: number; readonly rows: number }> {
  const match = /^\s*(\d{1,3})\s*[x×*]\s*(\d{1,3})\s*$/i.exec(text);
  const [columns, rows] = [Number(match?.[1] ?? 0), Number(match?.[2] ?? 0)];
  if (columns >= 1 && rows >= 1 && columns <= mostAcross && rows <= mostAcross) return good({ columns, rows });
  return bad({
    code: 'grid',
    message: `'${text}' is not a grid of labels.`,
    cure: `Write how many stand across and how many down, each from 1 to ${mostAcross}: --grid 4x12.`,
  });
}

/** The name of a paper in any case. @example parsePaper('letter').value // 'Letter' */
export function parsePaper(text: string): Outcome<PaperName> {
  const found = (Object.keys(papers) as PaperName[]).find((name) => name.toLowerCase() === text.trim().toLowerCase());
  return found
    ? good(found)
    : bad({ code: 'paper', message: `There is no paper '${text}' here.`, cure: 'Write --paper A4 or --paper Letter.' });
}

const hundredth = (millimetres: number): number => Math.floor(millimetres * 100 + 1e-6) / 100;

/** How many labels fit, or whether those asked for do. */
function fill(
  paper: PaperName,
  label: Size,
  grid: { readonly columns: number; readonly rows: number },
): Outcome<Sheet> {
  const whole = papers[paper];
  const [left, top] = [
    (whole.width - label.width * grid.columns) / 2,
    (whole.height - label.height * grid.rows) / 2,
  ] as const;
  if (left < 0 || top < 0)
    return bad({
      code: 'does-not-fit',
      message:
        `${grid.columns} by ${grid.rows} labels of ${label.width} by ${label.height} mm are larger than ${paper}, ` +
        `which is ${whole.width} by ${whole.height} mm.`,
      cure: 'Ask for fewer or smaller labels.',
    });
  return good({ paper, label, ...grid, margin: { left: hundredth(left), top: hundredth(top) } });
}

/** As many labels of a size as stand on a paper with its edge left white; none where one alone is too large. */
export function sheetOf(paper: PaperName, label: Size): Outcome<Sheet> {
  const whole = papers[paper];
  const [columns, rows] = [
    Math.floor((whole.width - 2 * edge + 1e-6) / label.width),
    Math.floor((whole.height - 2 * edge + 1e-6) / label.height),
  ] as const;
  return fill(paper, label, { columns: Math.max(1, columns), rows: Math.max(1, rows) });
}

/** Sizes of labels that are tried where none is asked for, the smallest first. */
export const usualSizes: Readonly<Record<'vial' | 'bottle', readonly Size[]>> = {
  vial: [
    { width: 64, height: 38 },
    { width: 74, height: 52 },
  ],
  bottle: [
    { width: 74, height: 52 },
    { width: 105, height: 74 },
    { width: 148, height: 105 },
  ],
};

/** The sheets to try, in order: by the size, the grid or both that were asked for, or of the usual sizes. */
export function readSheets(asked: SheetAsked, usual: readonly Size[]): Outcome<readonly Sheet[]> {
  if (asked.size !== undefined || asked.grid !== undefined) {
    const one = readSheet(asked);
    return one.ok ? good([one.value]) : one;
  }
  const paper = parsePaper(asked.paper ?? 'A4');
  if (!paper.ok) return paper;
  return good(
    usual.flatMap((size) => {
      const sheet = sheetOf(paper.value, size);
      return sheet.ok ? [sheet.value] : [];
    }),
  );
}

/** The sheet that was asked for: by size, by grid, or by both. */
function readSheet({ size, grid, paper = 'A4' }: SheetAsked): Outcome<Sheet> {
  const name = parsePaper(paper);
  if (!name.ok) return name;
  const [sized, gridded] = [
    size === undefined ? undefined : parseSize(size),
    grid === undefined ? undefined : parseGrid(grid),
  ];
  if (sized && !sized.ok) return sized;
  if (gridded && !gridded.ok) return gridded;
  if (!gridded) return sheetOf(name.value, sized!.value);
  if (sized) return fill(name.value, sized.value, gridded.value);
  const whole = papers[name.value];
  const label = {
    width: hundredth((whole.width - 2 * edge) / gridded.value.columns),
    height: hundredth((whole.height - 2 * edge) / gridded.value.rows),
  };
  if (label.width >= smallest && label.height >= smallest) return fill(name.value, label, gridded.value);
  return bad({
    code: 'does-not-fit',
    message: `In a grid of ${grid} a label is ${label.width} by ${label.height} mm.`,
    cure: `Each side is at least ${smallest} mm: ask for fewer labels.`,
  });
}
