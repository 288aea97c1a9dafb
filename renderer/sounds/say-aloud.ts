/** Says words with the system's own voice, dropping what was still being said. Silent without one. */
export function sayAloud(words: string): void {
  if (words === '' || !('speechSynthesis' in window)) return;
  window.speechSynthesis.cancel();
  const speech = new SpeechSynthesisUtterance(words);
  speech.lang = 'en';
  speech.rate = 1.1;
  window.speechSynthesis.speak(speech);
}
