// Scrolls the list by so many pixels a frame for so many frames, and notes the time from each frame to the next.
const [css, step, frames] = arguments;
const list = document.querySelector(css);
const times = [];
let last = 0;
const frame = (now) => {
  if (last) times.push(now - last);
  last = now;
  if (times.length >= frames) return done(times);
  list.scrollTop += step;
  requestAnimationFrame(frame);
};
requestAnimationFrame(frame);
