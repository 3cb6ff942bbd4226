// One bar on a terminal for many systems: how many are there, how fast they come, how long it will take.

import cliProgress from 'cli-progress';
import type { ProgressBar } from './host.ts';

export function progressBarOn(stream: NodeJS.WriteStream): ProgressBar {
  const bar = new cliProgress.SingleBar({
    format: '{bar} {value} of {total} systems, {rate}, {eta_formatted} left',
    barCompleteChar: '#',
    barIncompleteChar: '.',
    hideCursor: false,
    clearOnComplete: true,
    stopOnComplete: false,
    etaBuffer: 200,
    stream,
  });
  let begun = -1;
  let since = 0;
  return {
    show(there, all) {
      if (begun < 0) {
        begun = there;
        since = performance.now();
        bar.start(all, there, { rate: '' });
        return;
      }
      const seconds = (performance.now() - since) / 1000;
      const rate = seconds > 0 ? (there - begun) / seconds : 0;
      bar.update(there, { rate: `${rate < 10 ? rate.toFixed(1) : Math.round(rate)} a second` });
    },
    end() {
      if (begun >= 0) bar.stop();
    },
  };
}
