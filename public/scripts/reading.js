// The reading copy refreshes the open page when the journal changes and shows what the proof found.
const panel = document.createElement('aside');
panel.className = 'reading-remarks';
panel.setAttribute('aria-label', 'Remarks of the proof');

function line(tag, words, className) {
  const element = document.createElement(tag);
  element.textContent = words;
  if (className) element.className = className;
  return element;
}

async function show() {
  const answer = await fetch(`/~reading/remarks?address=${encodeURIComponent(location.pathname)}`);
  const { here, elsewhere, errors } = await answer.json();
  panel.replaceChildren();
  const details = document.createElement('details');
  details.open = here.some((remark) => remark.severity === 'error');
  const words = [`${here.length} ${here.length === 1 ? 'remark' : 'remarks'} here`];
  if (elsewhere > 0) words.push(`${elsewhere} elsewhere`);
  if (errors > 0) words.push(`${errors} stop publication`);
  details.append(line('summary', `Reading copy: ${words.join(', ')}`));
  const list = document.createElement('ul');
  for (const remark of here) {
    const item = line('li', '', remark.severity);
    item.append(line('strong', remark.severity), ` ${remark.file}:${remark.line}:${remark.column} `, line('span', remark.found), ' ', line('em', remark.cure));
    list.append(item);
  }
  details.append(list);
  panel.append(details);
  if (!panel.isConnected) document.body.append(panel);
}

const place = `masstone-place ${location.pathname}`;
const kept = sessionStorage.getItem(place);
if (kept !== null) { scrollTo(0, Number(kept)); sessionStorage.removeItem(place); }

new EventSource('/~reading/changes').addEventListener('changed', () => {
  sessionStorage.setItem(place, String(scrollY));
  location.reload();
});
show().catch(() => {});
