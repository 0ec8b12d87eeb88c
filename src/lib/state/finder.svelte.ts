import { CameraError, grabFrame, openCamera, type Camera, type CameraFault } from '#lib/device/capture/camera.ts';

/** The viewfinder of one page: one camera at a time, given back when the page is left or out of use. */
export class Finder {
  #camera: Camera | null = $state.raw(null);
  #fault: CameraFault | null = $state(null);
  #left = false;

  get stream() {
    return this.#camera?.stream ?? null;
  }
  /** Why there is no picture; null while there is one, or while the camera is still opening. */
  get fault() {
    return this.#fault;
  }

  async start(): Promise<void> {
    this.#fault = null;
    try {
      const camera = await openCamera();
      if (this.#left) {
        camera.stop();
        return;
      }
      this.#camera = camera;
      void camera.lost.then(() => {
        if (this.#camera !== camera) return;
        this.#camera = null;
        this.#fault = 'lost';
      });
    } catch (error) {
      this.#fault = error instanceof CameraError ? error.fault : 'none';
    }
  }

  /** The frame now shown, as JPEG bytes, whole or with its long side at most `longSidePx`; null while there is none. */
  grab(video: HTMLVideoElement | undefined, longSidePx: number | null = null): Promise<Uint8Array<ArrayBuffer> | null> {
    return video === undefined ? Promise.resolve(null) : grabFrame(video, longSidePx);
  }

  leave(): void {
    this.#left = true;
    this.#camera?.stop();
    this.#camera = null;
  }
}
