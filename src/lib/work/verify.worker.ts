import { verify, type Verification } from '#lib/record/verify.ts';
import { serve } from './bridge.ts';

serve<Blob, Verification>(verify);
