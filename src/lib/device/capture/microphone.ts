import { keepScreenAwake } from '../screen-awake.ts';
import gatherer from './pcm.worklet.ts?worker&url';
import { resampler } from './resample.ts';

/** Why there is no sound. `refused` is remembered by the browser; asking again would only repeat it. */
export type MicrophoneFault = 'refused' | 'none' | 'lost';

export interface Microphone {
  /** Resolves when the microphone went away by itself: unplugged, taken by a call or the lock screen, or its permission withdrawn. */
  readonly lost: Promise<void>;
  /** Gives the microphone back. Resolves once the last of its sound was handed over. */
  stop(): Promise<void>;
}

export class MicrophoneError extends Error {
  override readonly name = 'MicrophoneError';
  readonly fault: MicrophoneFault;
  constructor(fault: MicrophoneFault, cause?: unknown) {
    super(`microphone ${fault}`, { cause });
    this.fault = fault;
  }
}

/** How long an allowed microphone may take until its first sound, and the audio thread until its last. */
const FIRST_SOUND_MS = 5_000;
const LAST_SOUND_MS = 500;

/**
 * Opens the microphone, to be called from a touch. Its sound comes in blocks of about a tenth of a second, samples from -1 to 1, one channel,
 * `rateHz` a second whatever the phone gives. Resolves at the first block; rejects with a MicrophoneError.
 */
export async function openMicrophone(rateHz: number, onSound: (samples: Float32Array) => void): Promise<Microphone> {
  const stream = await ask();
  const track = stream.getAudioTracks()[0];
  let context: AudioContext | undefined;
  // A phone that locks itself takes the microphone away.
  const sleepAgain = keepScreenAwake();
  const resume = () => void context?.resume().catch(() => undefined);
  // Some browsers start sound only after a touch, and a finger has touched when it is lifted.
  document.addEventListener('pointerup', resume);
  const close = () => {
    sleepAgain();
    document.removeEventListener('pointerup', resume);
    stream.getTracks().forEach((one) => one.stop());
    if (context !== undefined && context.state !== 'closed') void context.close();
  };
  try {
    const first = Promise.withResolvers<void>();
    const last = Promise.withResolvers<void>();
    const opened = await openGraph(stream, rateHz);
    context = opened.context;
    const resampled = context.sampleRate === rateHz ? (block: Float32Array) => block : resampler(Math.round(context.sampleRate), rateHz);
    opened.node.port.onmessage = ({ data }: MessageEvent<Float32Array | null>) => {
      if (data === null) last.resolve();
      else {
        first.resolve();
        onSound(resampled(data));
      }
    };
    opened.connect();
    resume();
    await within(FIRST_SOUND_MS, first.promise);
    return {
      lost: lossOf(track, context, opened.node),
      stop: async () => {
        opened.node.port.postMessage('end');
        await within(LAST_SOUND_MS, last.promise).catch(() => undefined);
        close();
      },
    };
  } catch (cause) {
    close();
    throw new MicrophoneError('none', cause);
  }
}

async function ask(): Promise<MediaStream> {
  // On an address that is not https or localhost the browser hides the microphone altogether.
  const devices = (navigator as Partial<Navigator>).mediaDevices;
  if (devices === undefined) throw new MicrophoneError('none');
  try {
    // Nothing is played meanwhile, so there is no echo; a fan in the next room is.
    const wanted = { channelCount: 1, echoCancellation: false, noiseSuppression: true, autoGainControl: true };
    return await devices.getUserMedia({ audio: wanted, video: false });
  } catch (cause) {
    const name = cause instanceof DOMException ? cause.name : '';
    throw new MicrophoneError(name === 'NotAllowedError' || name === 'SecurityError' ? 'refused' : 'none', cause);
  }
}

interface Graph {
  readonly context: AudioContext;
  readonly node: AudioWorkletNode;
  connect(): void;
}

/** At the wanted rate, or where the browser refuses to join that to the microphone's, at the phone's own. */
async function openGraph(stream: MediaStream, rateHz: number): Promise<Graph> {
  try {
    return await graphOf(new AudioContext({ sampleRate: rateHz }), stream);
  } catch {
    return graphOf(new AudioContext(), stream);
  }
}

async function graphOf(context: AudioContext, stream: MediaStream): Promise<Graph> {
  try {
    const source = context.createMediaStreamSource(stream);
    await context.audioWorklet.addModule(gatherer);
    const node = new AudioWorkletNode(context, 'gatherer', { channelCount: 1, channelCountMode: 'explicit' });
    // It gives silence; some browsers run only what leads to the loudspeaker.
    return { context, node, connect: () => void source.connect(node).connect(context.destination) };
  } catch (error) {
    void context.close();
    throw error;
  }
}

/** A call or the lock screen mutes the track or interrupts the context before it ends either. */
function lossOf(track: MediaStreamTrack | undefined, context: AudioContext, node: AudioWorkletNode): Promise<void> {
  return new Promise((resolve) => {
    track?.addEventListener('ended', () => resolve());
    track?.addEventListener('mute', () => resolve());
    node.addEventListener('processorerror', () => resolve());
    context.addEventListener('statechange', () => context.state !== 'running' && resolve());
  });
}

async function within(ms: number, task: Promise<void>): Promise<void> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`no answer within ${ms} ms`)), ms);
  });
  try {
    await Promise.race([task, late]);
  } finally {
    clearTimeout(timer);
  }
}
