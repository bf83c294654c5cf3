export { isSafe, SignInError, type Client } from './discovery.js';
export { SignIn, type SignInOptions } from './sign-in.js';
