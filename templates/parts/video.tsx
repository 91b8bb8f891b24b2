// Videos of an entry: its moments as links into the video where the host is known to take a time, plain links
// elsewhere.
import type { Element, ElementContent } from 'hast';
import type { Entry } from '../../src/journal/entry.js';
import { longDate } from '../dates.js';

type Video = Entry['videos'][number];

/** `1:02:03` or `3:40` in seconds. */
export const secondsOf = (at: string): number => at.split(':').reduce((sum, part) => sum * 60 + Number(part), 0);

interface Host {
  readonly is: (url: URL) => boolean;
  readonly at: (url: URL, seconds: number) => void;
}

/**
 * How hosts take a time. Sources: the hosts' own share links (from memory); files: W3C Media Fragments URI 1.0,
 * 4.2.1.
 */
const hosts: readonly Host[] = [
  {
    is: ({ hostname }) => /(^|\.)(youtube\.com|youtu\.be)$/.test(hostname),
    at: (url, seconds) => url.searchParams.set('t', `${seconds}s`),
  },
  {
    is: ({ hostname }) => /(^|\.)vimeo\.com$/.test(hostname),
    at: (url, seconds) => {
      url.hash = `t=${seconds}s`;
    },
  },
  {
    is: ({ pathname }) => /\.(mp4|m4v|webm|ogv)$/i.test(pathname),
    at: (url, seconds) => {
      url.hash = `t=${seconds}`;
    },
  },
];

/**
 * The address of a moment of a video; that of the video where its host is not known to take a time.
 * @example momentAddress('https://youtu.be/x', '3:40') // 'https://youtu.be/x?t=220s'
 */
export function momentAddress(address: string, at: string): string {
  try {
    const url = new URL(address);
    const host = hosts.find(({ is }) => is(url));
    if (!host) return address;
    host.at(url, secondsOf(at));
    return url.href;
  } catch {
    return address;
  }
}

/** One moment as a link: its time, then what it shows. */
export const momentLink = (video: Pick<Video, 'url'>, { at, shows }: Video['moments'][number]): Element =>
  (
    <a class="moment" href={momentAddress(video.url, at)} rel="external">
      {`${at} ${shows}`}
    </a>
  ) as Element;

function videoLine(video: Video, title: string, placed: ReadonlySet<string>): Element {
  const moments = video.moments.filter(({ at }) => !placed.has(at));
  const published = video.published ? `, ${longDate(video.published)}` : '';
  const list: ElementContent[] = moments.map((moment) => (<li>{momentLink(video, moment)}</li>) as Element);
  return (
    <div class="video">
      <p>
        {'On video: '}
        <a href={video.url} rel="external">
          {video.title ?? title}
        </a>
        {published}
      </p>
      {list.length > 0 ? <ul class="moments">{list}</ul> : null}
    </div>
  ) as Element;
}

/**
 * The entry's videos with the moments that its words do not place themselves.
 * @param placed times of the moments that stand in the write-up
 */
export const videoLines = ({ videos, title }: Entry, placed: ReadonlySet<string>): Element[] =>
  videos.map((video) => videoLine(video, title, placed));
