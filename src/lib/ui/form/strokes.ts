/** The paper a signature is drawn on: its own units, whatever the screen. */
export const PAPER = { width: 1000, height: 400 } as const;

/** The points of a stroke, as kept in a draft: `x,y x,y`. */
export function pointsOf(stroke: string): [x: number, y: number][] {
  return stroke.split(' ').flatMap((point): [number, number][] => {
    const [x, y] = point.split(',').map(Number);
    return x === undefined || y === undefined || Number.isNaN(x + y) ? [] : [[x, y]];
  });
}

/** A place on the paper in whole units, from a touch on its picture; held within its edges. */
export function placeOn(
  box: { left: number; top: number; width: number; height: number },
  touch: { clientX: number; clientY: number },
): string {
  const along = (at: number, from: number, length: number, units: number) =>
    Math.round(Math.min(1, Math.max(0, (at - from) / length)) * units);
  return `${along(touch.clientX, box.left, box.width, PAPER.width)},${along(touch.clientY, box.top, box.height, PAPER.height)}`;
}

/** The strokes as a picture, black on white on any screen. */
export async function strokesPng(strokes: readonly string[]): Promise<Blob> {
  const canvas = new OffscreenCanvas(PAPER.width, PAPER.height);
  const pen = canvas.getContext('2d');
  if (pen === null) throw new Error('canvas: no pen');
  pen.fillStyle = '#fff';
  pen.fillRect(0, 0, PAPER.width, PAPER.height);
  pen.lineWidth = 6;
  pen.lineCap = 'round';
  pen.lineJoin = 'round';
  for (const stroke of strokes) {
    pen.beginPath();
    const points = pointsOf(stroke);
    // A dot is a line to itself.
    for (const [x, y] of [...points.slice(0, 1), ...points]) pen.lineTo(x, y);
    pen.stroke();
  }
  return canvas.convertToBlob({ type: 'image/png' });
}
