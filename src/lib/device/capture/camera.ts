/** Why there is no picture in the viewfinder. `refused` is remembered by the browser; asking again would only repeat it. */
export type CameraFault = 'refused' | 'none' | 'lost';

export interface Camera {
  readonly stream: MediaStream;
  /** Resolves when the camera went away by itself: unplugged, taken by a call, or its permission withdrawn. */
  readonly lost: Promise<void>;
  stop(): void;
}

/** How long a camera may take before the file picker is offered instead. */
const PATIENCE_MS = 8_000;

/** Opens the camera that looks away from the person, at the best size it offers, without sound. Rejects with a CameraFault. */
export async function openCamera(): Promise<Camera> {
  // On an address that is not https or localhost the browser hides the camera altogether.
  const devices = (navigator as Partial<Navigator>).mediaDevices;
  if (devices === undefined) throw cameraFault('none');
  const asked = devices.getUserMedia({
    audio: false,
    video: { facingMode: { ideal: 'environment' }, width: { ideal: 4096 }, height: { ideal: 3072 } },
  });
  const stream = await withPatience(asked).catch((error: unknown) => {
    const name = error instanceof DOMException ? error.name : '';
    throw cameraFault(name === 'NotAllowedError' || name === 'SecurityError' ? 'refused' : 'none');
  });
  const track = stream.getVideoTracks()[0];
  return {
    stream,
    lost: new Promise((resolve) => track?.addEventListener('ended', () => resolve())),
    stop: () => stream.getTracks().forEach((one) => one.stop()),
  };
}

export class CameraError extends Error {
  override readonly name = 'CameraError';
  readonly fault: CameraFault;
  constructor(fault: CameraFault) {
    super(`camera ${fault}`);
    this.fault = fault;
  }
}

function cameraFault(fault: CameraFault): CameraError {
  return new CameraError(fault);
}

async function withPatience(asked: Promise<MediaStream>): Promise<MediaStream> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(cameraFault('none')), PATIENCE_MS);
  });
  try {
    return await Promise.race([asked, late]);
  } catch (error) {
    // A stream that arrives after we stopped waiting must not keep the lamp on.
    asked.then((stream) => stream.getTracks().forEach((one) => one.stop())).catch(() => undefined);
    throw error;
  } finally {
    clearTimeout(timer);
  }
}

/** JPEG quality of a frame: high enough that a tape's sixteenths stay crisp. */
const QUALITY = 0.92;

/** The frame now in the viewfinder as JPEG bytes, as large as it is or with its long side at most `longSidePx`. Null while the camera has not shown one yet. */
export async function grabFrame(video: HTMLVideoElement, longSidePx: number | null): Promise<Uint8Array<ArrayBuffer> | null> {
  const { videoWidth, videoHeight } = video;
  if (videoWidth === 0 || videoHeight === 0) return null;
  const scale = longSidePx === null ? 1 : Math.min(1, longSidePx / Math.max(videoWidth, videoHeight));
  const [width, height] = [videoWidth, videoHeight].map((side) => Math.max(1, Math.round(side * scale))) as [number, number];
  const canvas = document.createElement('canvas');
  canvas.width = width;
  canvas.height = height;
  canvas.getContext('2d')?.drawImage(video, 0, 0, width, height);
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', QUALITY));
  // Phones count canvas memory until it is given back by hand.
  canvas.width = 0;
  canvas.height = 0;
  return blob === null ? null : new Uint8Array(await blob.arrayBuffer());
}
