import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { resampler } from '#lib/device/capture/resample.ts';
import { SOUND, wavOf } from '#lib/record/wav.ts';
import { pcm16 } from '#lib/device/capture/pcm.ts';
import { random } from '../sim/random.ts';

/** Made voices: flite's were built from recordings of people, espeak-ng's from formulas alone. */
export const VOICES = ['slt', 'rms', 'awb', 'kal16', 'en-us', 'en-gb-scotland'] as const;
export type Voice = (typeof VOICES)[number];
export const FLITE: readonly Voice[] = ['slt', 'rms', 'awb', 'kal16'];

/** What a room sounds like beside a voice: a fan (brown noise), a vacuum cleaner (pink noise, a motor's 117 Hz and a whine of 2.3 kHz). */
export interface Room {
  readonly noise: 'fan' | 'vacuum';
  /** Level of the speech over that of the noise. */
  readonly snrDb: number;
}

/** A phrase as a microphone would give it: 16,000 samples a second, `leadS` seconds of the room before it and half a second after. */
export function clip(text: string, voice: Voice, room: Room, seed: number, leadS = 0.3): Float32Array<ArrayBuffer> {
  const spoken = speech(text, voice);
  const padded = new Float32Array(spoken.length + Math.round(SOUND.rateHz * (leadS + 0.5)));
  padded.set(spoken, Math.round(SOUND.rateHz * leadS));
  const noise = roomNoise(padded.length, room.noise, random(seed));
  const gain = (rms(spoken) / rms(noise)) * 10 ** (-room.snrDb / 20);
  const mixed = padded.map((sample, i) => sample + noise[i]! * gain);
  const peak = mixed.reduce((max, sample) => Math.max(max, Math.abs(sample)), 0);
  return mixed.map((sample) => (sample / peak) * 0.5);
}

/** A room nobody speaks in. */
export function silentRoom(seconds: number, noise: Room['noise'], seed: number): Float32Array<ArrayBuffer> {
  const made = roomNoise(seconds * SOUND.rateHz, noise, random(seed));
  const level = rms(made);
  return made.map((sample) => (sample / level) * 0.05);
}

/** A clip as a file that a browser's false microphone plays. */
export function wavFile(samples: Float32Array): Uint8Array<ArrayBuffer> {
  return wavOf([pcm16(samples)]);
}

const made = new Map<string, Float32Array<ArrayBuffer>>();

function speech(text: string, voice: Voice): Float32Array<ArrayBuffer> {
  const key = `${voice} ${text}`;
  const before = made.get(key);
  if (before !== undefined) return before;
  const folder = mkdtempSync(join(tmpdir(), 'layerbook-speech-'));
  try {
    const file = join(folder, 'said.wav');
    if (FLITE.includes(voice)) execFileSync('flite', ['-voice', voice, '-t', text, '-o', file]);
    else execFileSync('espeak-ng', ['-v', voice, '-s', '150', '-w', file, text]);
    const samples = samplesOf(readFileSync(file));
    made.set(key, samples);
    return samples;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** 16 bit, one channel, at whatever rate the voice gives. */
function samplesOf(file: Buffer): Float32Array<ArrayBuffer> {
  const rate = file.readUInt32LE(24);
  const from = file.indexOf('data') + 8;
  const pcm = Float32Array.from({ length: Math.floor((file.length - from) / 2) }, (_, i) => file.readInt16LE(from + 2 * i) / 32_768);
  return rate === SOUND.rateHz ? pcm : resampler(rate, SOUND.rateHz)(pcm);
}

function roomNoise(length: number, noise: Room['noise'], chance: () => number): Float32Array<ArrayBuffer> {
  const white = () => chance() * 2 - 1;
  if (noise === 'fan') {
    let level = 0;
    return Float32Array.from({ length }, () => (level = level * 0.98 + white() * 0.1));
  }
  // Three of the filters that make white noise pink (Paul Kellet's economy method, public domain), with the motor and its whine.
  let [a, b, c] = [0, 0, 0];
  return Float32Array.from({ length }, (_, i) => {
    const w = white();
    a = 0.99765 * a + w * 0.099046;
    b = 0.963 * b + w * 0.2965164;
    c = 0.57 * c + w * 1.0526913;
    const t = (2 * Math.PI * i) / SOUND.rateHz;
    const buzz = Math.sin(117 * t) + 0.5 * Math.sin(234 * t) + 0.33 * Math.sin(351 * t);
    return (a + b + c + w * 0.1848) * 0.3 + 0.3 * buzz + 0.1 * Math.sin(2300 * t);
  });
}

function rms(samples: Float32Array): number {
  return Math.sqrt(samples.reduce((sum, sample) => sum + sample * sample, 0) / samples.length);
}
