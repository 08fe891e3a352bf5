/* Captions of sound and film: cues made of the words below the player, since a track of captions does not load from a file. */
(() => {
  'use strict';

  /* The text of a cue is read as markup: it says what it says all the same. */
  const plain = (text) => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

  const caption = (media) => {
    const player = media.querySelector('video, audio');
    const lines = [...media.querySelectorAll('.transcript [data-from]')];
    if (!player || lines.length === 0) return;
    const label = media.querySelector('.transcript > summary').textContent;
    const track = player.addTextTrack('captions', label, document.documentElement.lang);
    lines.forEach((line) => {
      const { from, to } = line.dataset;
      const cue = new VTTCue(from / 1000, to / 1000, plain(line.querySelector('.said').textContent));
      cue.addEventListener('enter', () => line.classList.add('is-said'));
      cue.addEventListener('exit', () => line.classList.remove('is-said'));
      track.addCue(cue);
    });
    track.mode = player.matches('video') ? 'showing' : 'hidden';
  };

  document.querySelectorAll('.media').forEach(caption);
})();
