// A computed sound, played by the browser from numbers: only when somebody pressed its button.
(() => {
  let playing = null;
  const awake = () => { (ff.audio ??= new AudioContext()).resume(); };
  const stop = () => { const was = playing; playing = null; if (was) { was.node.onended = null; was.node.stop(); was.ended?.(); } };
  // told: samples and rate; from: second of them to begin at; ended: called once, however it ends
  const play = (told, { loop = false, from = 0, ended = null } = {}) => {
    stop();
    const bytes = Uint8Array.from(atob(told.samples), (c) => c.charCodeAt(0)), numbers = new Int16Array(bytes.buffer);
    const held = ff.audio.createBuffer(1, numbers.length, told.rate), node = ff.audio.createBufferSource();
    held.copyToChannel(Float32Array.from(numbers, (n) => n / 32768), 0);
    Object.assign(node, { buffer: held, loop }).connect(ff.audio.destination);
    const begun = ff.audio.currentTime;
    node.onended = stop;
    playing = { node, ended, at: () => from + ff.audio.currentTime - begun };
    node.start(0, from);
    return held.duration;
  };
  ff.sound = { awake, play, stop, at: () => playing?.at() ?? null };
})();
