import { useInfiniteQuery } from '@tanstack/react-query';
import { api, type Skater } from './api.ts';

/** Skaters on one page of a list. */
export const PEOPLE_PAGE = 40;

/**
 * Skaters by name with what a line about each shows, forty at a time in one request each: neither the page
 * nor the number of requests grows with the club. Asked again after any edit of what it shows.
 */
export const usePeoplePages = () =>
  useInfiniteQuery({
    queryKey: ['people'],
    queryFn: ({ pageParam }) =>
      api.people({
        limit: String(PEOPLE_PAGE),
        ...(pageParam === null ? {} : { afterName: pageParam.name, afterId: pageParam.id }),
      }),
    initialPageParam: null as Skater | null,
    getNextPageParam: (page) => (page.length < PEOPLE_PAGE ? null : (page.at(-1)?.skater ?? null)),
  });
